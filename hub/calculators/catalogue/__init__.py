"""Every calculator, by topic. A calculator is added in the file of its topic; a topic is added here."""

from hub.calculators.calculator import Calculator
from hub.calculators.catalogue import (
    counting,
    germination,
    longevity,
    moisture,
    nursery,
    phenology,
    sampling,
    take,
    testing,
)

TOPICS = (
    sampling.TOPIC,
    phenology.TOPIC,
    take.TOPIC,
    counting.TOPIC,
    testing.TOPIC,
    moisture.TOPIC,
    longevity.TOPIC,
    germination.TOPIC,
    nursery.TOPIC,
)
CALCULATORS: dict[str, Calculator] = {each.name: each for topic in TOPICS for each in topic.calculators}

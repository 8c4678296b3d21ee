"""Every calculator, by topic. A calculator is added in the file of its topic; a topic is added here."""

from hub.calculators.calculator import Calculator
from hub.calculators.catalogue import counting, germination, longevity, moisture, sampling, take, testing

TOPICS = (
    sampling.TOPIC,
    take.TOPIC,
    counting.TOPIC,
    testing.TOPIC,
    germination.TOPIC,
    moisture.TOPIC,
    longevity.TOPIC,
)
CALCULATORS: dict[str, Calculator] = {each.name: each for topic in TOPICS for each in topic.calculators}

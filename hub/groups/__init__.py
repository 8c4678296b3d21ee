"""The tenants: clubs and schools, banks and regions, and the seats that people hold in them."""

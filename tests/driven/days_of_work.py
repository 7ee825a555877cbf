import unittest
class DaysOfWork(unittest.TestCase):
    def test_nothing(self):
        pass

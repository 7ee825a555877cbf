#include "screening/everyday_words.h"

#include <algorithm>
#include <array>

namespace foreday::screening {
namespace {

// Sorted.
constexpr std::array<std::string_view, 498> words{
    "a",         "about",      "after",       "afternoon", "again",      "all",          "allergy",
    "alright",   "also",       "always",      "am",        "an",         "and",          "anemia",
    "angina",    "ankle",      "another",     "any",       "anything",   "appetite",     "apple",
    "are",       "arm",        "around",      "arthritis", "as",         "asthma",       "at",
    "away",      "baby",       "back",        "bad",       "banana",     "basement",     "bathroom",
    "because",   "bed",        "bedroom",     "been",      "before",     "better",       "big",
    "bladder",   "bleeding",   "bloating",    "blood",     "blue",       "body",         "bone",
    "bottle",    "bowel",      "box",         "bread",     "breakfast",  "breath",       "breathing",
    "broken",    "brother",    "brown",       "bruise",    "bus",        "but",          "buy",
    "by",        "bye",        "call",        "came",      "can",        "cancer",       "candy",
    "car",       "care",       "cellar",      "chair",     "cheese",     "chest",        "chicken",
    "child",     "children",   "cholesterol", "city",      "clear",      "clinic",       "clock",
    "coffee",    "cold",       "colon",       "come",      "concert",    "constipation", "cook",
    "cough",     "could",      "cramps",      "cup",       "cut",        "dad",          "dark",
    "daughter",  "day",        "days",        "dear",      "dementia",   "dentist",      "depression",
    "diabetes",  "diarrhea",   "dinner",      "dizzy",     "do",         "doctor",       "does",
    "dog",       "done",       "door",        "down",      "downstairs", "drink",        "drive",
    "drops",     "drugstore",  "dry",         "each",      "ear",        "eat",          "eating",
    "egg",       "eight",      "evening",     "every",     "everything", "exam",         "eye",
    "eyes",      "face",       "family",      "fast",      "father",     "feel",         "fell",
    "fever",     "few",        "fine",        "finger",    "fish",       "five",         "floor",
    "flu",       "food",       "foot",        "for",       "forget",     "forgot",       "four",
    "friday",    "friend",     "from",        "fruit",     "full",       "garden",       "get",
    "girl",      "give",       "glass",       "glasses",   "gluten",     "go",           "going",
    "gone",      "good",       "gout",        "green",     "grocery",    "had",          "half",
    "hand",      "happy",      "have",        "hay",       "head",       "headache",     "health",
    "hear",      "heart",      "heartburn",   "hello",     "help",       "her",          "here",
    "high",      "him",        "hip",         "his",       "hold",       "home",         "hospital",
    "hot",       "hour",       "hours",       "house",     "how",        "hungry",       "husband",
    "ice",       "if",         "in",          "infection", "inhaler",    "insurance",    "is",
    "it",        "itch",       "itchy",       "jelly",     "job",        "joint",        "juice",
    "just",      "keep",       "kidney",      "kind",      "knee",       "know",         "last",
    "late",      "later",      "left",        "leg",       "legs",       "lemon",        "less",
    "letter",    "like",       "little",      "liver",     "long",       "look",         "louder",
    "low",       "lower",      "lunch",       "lung",      "lungs",      "machine",      "make",
    "many",      "maybe",      "me",          "meal",      "meals",      "meat",         "medicine",
    "medicines", "menopause",  "migraine",    "milk",      "mind",       "minute",       "mom",
    "monday",    "money",      "month",       "months",    "more",       "morning",      "mother",
    "mouth",     "much",       "my",          "nap",       "nausea",     "neck",         "need",
    "neighbor",  "nerves",     "never",       "new",       "next",       "niece",        "night",
    "no",        "none",       "noon",        "normal",    "nose",       "not",          "nothing",
    "now",       "nurse",      "o",           "of",        "off",        "ok",           "okay",
    "old",       "on",         "once",        "one",       "onion",      "only",         "operation",
    "or",        "orange",     "our",         "out",       "over",       "pain",         "pardon",
    "parking",   "pepper",     "pharmacy",    "phone",     "pick",       "pillow",       "pink",
    "please",    "pneumonia",  "popcorn",     "potato",    "pressure",   "procedure",    "prostate",
    "pulse",     "purple",     "put",         "rash",      "really",     "red",          "reflux",
    "remember",  "repeat",     "rice",        "ride",      "right",      "room",         "round",
    "running",   "salad",      "salt",        "same",      "sandwich",   "saturday",     "say",
    "school",    "scope",      "see",         "seeds",     "seizure",    "seizures",     "seven",
    "she",       "shoe",       "shop",        "shot",      "should",     "shoulder",     "sick",
    "side",      "sinus",      "sister",      "six",       "skin",       "sleep",        "sleeping",
    "slowly",    "small",      "so",          "soda",      "some",       "someone",      "something",
    "sometimes", "son",        "soon",        "sore",      "sorry",      "soup",         "speak",
    "spell",     "spring",     "stairs",      "start",     "steak",      "still",        "stomach",
    "stop",      "stroke",     "sugar",       "summer",    "sunday",     "sure",         "surgery",
    "sweet",     "swelling",   "table",       "take",      "taken",      "takes",        "taking",
    "tea",       "teeth",      "telephone",   "tell",      "ten",        "thank",        "thanks",
    "that",      "the",        "them",        "then",      "there",      "these",        "they",
    "thing",     "think",      "this",        "thought",   "three",      "throat",       "through",
    "thursday",  "time",       "tired",       "to",        "today",      "toilet",       "tomato",
    "tomorrow",  "tongue",     "tonight",     "too",       "took",       "tooth",        "town",
    "train",     "tuesday",    "turkey",      "twelve",    "twice",      "two",          "ulcer",
    "under",     "until",      "up",          "upset",     "upstairs",   "us",           "use",
    "usually",   "vegetables", "very",        "visit",     "vitamin",    "wait",         "walk",
    "want",      "was",        "watch",       "water",     "we",         "wednesday",    "week",
    "weeks",     "weight",     "well",        "went",      "were",       "wet",          "what",
    "wheat",     "when",       "where",       "which",     "while",      "white",        "who",
    "why",       "wife",       "will",        "window",    "winter",     "with",         "without",
    "woman",     "work",       "would",       "wrist",     "wrong",      "year",         "years",
    "yellow",    "yes",        "yesterday",   "yet",       "yogurt",     "you",          "young",
    "your",
};

static_assert(std::ranges::is_sorted(words));

}  // namespace

bool is_everyday_word(std::string_view folded)
{
    return std::ranges::binary_search(words, folded);
}

}  // namespace foreday::screening

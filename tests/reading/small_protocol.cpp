#include "tests/reading/small_protocol.h"

#include <stdexcept>

namespace foreday::tests {
namespace {

constexpr const char* main_file = R"(version: "7"
sections: [booking, body, medicines, day]
engine:
  list_closed_days: closed_days
  clear_liquid_hours: liquid_hours
  preferred_second_start: second_start
  evening_start: evening
  usual_journey: journey
  bathroom_margin: margin
  arrive_before: arrive
  clearance_days: closed_days
  phone_hours: phone
  first_call_days: closed_days
facts_needed: {journey: way_minutes, diagnostic_only: only_looks}
calculators: {birth_date: born, sex: sex, weight: weight, creatinine: creatinine}
)";

constexpr const char* sources = R"(- {id: book, title: A book, by: Somebody, where: A shelf, year: 2020}
- {id: paper, title: A paper, by: Somebody else, where: A journal, year: 2021}
)";

constexpr const char* parameters =
    R"(- {id: closed_days, title: List, default: 14 days, range: [1 day, 30 days], looser: higher, sure: common practice}
- {id: liquid_hours, title: Liquids, default: 2 hours, range: [2 hours, 6 hours], looser: lower, sure: published,
   sources: [{source: book, at: table 1}]}
- {id: second_start, title: Second, default: 300 minutes, range: [4 hours, 6 hours], looser: any, sure: from memory}
- {id: evening, title: Evening, default: "18:00", range: ["16:00", "20:00"], looser: any, sure: from memory}
- {id: journey, title: Journey, default: 45 minutes, range: [5 minutes, 240 minutes], looser: lower, sure: from memory}
- {id: margin, title: Margin, default: 45 minutes, range: [30 minutes, 180 minutes], looser: lower, sure: from memory}
- {id: arrive, title: Arrive, default: 60 minutes, range: [15 minutes, 180 minutes], looser: lower, sure: from memory}
- {id: phone, title: Phone, default: 4 hours, range: [1 hour, 16 hours], looser: lower, sure: from memory}
- {id: table_limit, title: Table, default: 160 kg, range: [100 kg, 350 kg], looser: higher, sure: from memory}
- {id: age_limit_months, title: Months, default: 3 months, range: [1 month, 12 months], looser: lower, sure: from memory}
- {id: ask_twice, title: Ask twice, default: yes, looser: lower, sure: from memory}
)";

constexpr const char* policy_questions = R"(- id: thinner_low_risk
  question: The thinner before a small procedure
  options:
    - {id: one_day, title: no dose on the day before, sure: published, sources: [{source: book, at: page 3}]}
    - {id: goes_on, title: it goes on, sure: reported, sources: [{source: paper, at: page 9}]}
  default: one_day
  why: it has the study
)";

constexpr const char* facts = R"(- id: born
  type: date
  section: booking
  topic: identity and booking
  scope: person
  question: When were you born?
  why: Age.
  compare: yes
  tolerance: 0 days
  danger: {none: both ends of life have risks of their own}
- id: sex
  type: choice
  choices: [female, male]
  section: booking
  topic: identity and booking
  scope: person
  question: Sex?
  why: A formula.
  danger: {order: [male, female]}
- id: weight
  type: number
  unit: kg
  plausible: [25 kg, 400 kg]
  section: body
  topic: sedation and site
  scope: case
  question: How much do you weigh?
  why: The table.
  age_limit: 90 days
  danger: {away from: [50 kg, 120 kg]}
- id: creatinine
  type: number
  unit: mg/dL creatinine
  plausible: [0.2 mg/dL creatinine, 20 mg/dL creatinine]
  section: body
  topic: kidney and fluid
  scope: case
  question: The last creatinine?
  why: The kidneys.
  danger: higher
- id: way_minutes
  type: number
  unit: minutes
  plausible: [0 minutes, 600 minutes]
  section: booking
  topic: escort and home
  scope: case
  question: How long is your way?
  why: The timetable.
  danger: higher
- id: only_looks
  type: yes/no
  section: booking
  topic: identity and booking
  scope: case
  question: Does the examination only look?
  why: The bleeding risk.
  danger: no
- id: had_stroke
  type: yes/no
  section: body
  topic: brain and mind
  scope: person
  question: Have you had a stroke?
  why: The clot.
  danger: yes
- id: stroke_date
  type: date
  section: body
  topic: brain and mind
  scope: person
  question: When was the stroke?
  why: The first months.
  asked_when: {fact: had_stroke, is: yes}
  danger: later
- id: inr_today
  type: number
  plausible: [0.5, 20]
  section: day
  topic: blood thinners
  scope: day
  question: The INR of today
  why: Bleeding.
  danger: higher
- id: escort_named
  type: yes/no
  section: day
  topic: escort and home
  scope: case
  question: Who takes you home?
  why: The way home.
  danger: no
- id: last_meal
  type: time
  section: day
  topic: fasting
  scope: day
  question: When did you last eat?
  why: Food in the stomach.
  danger: later
)";

constexpr const char* classes = R"(- {id: thinner, title: Thinners, marked: yes}
- {id: iron, title: Iron, marked: no}
- {id: weight_loss, title: Injections for weight}
- {id: patches, title: Patches that nobody has}
)";

constexpr const char* medicines = R"(- {id: apixaban, generic: apixaban, names: [Eliquis], classes: [thinner]}
- {id: iron_tablet, generic: ferrous sulfate, classes: [iron], mistaken_for: [apixaban]}
- {id: semaglutide, generic: semaglutide, names: [Ozempic], classes: [weight_loss]}
)";

constexpr const char* procedures =
    R"(- {id: colonoscopy, title: Colonoscopy, plan: bowel, bleeding_risk: high, bleeding_risk_diagnostic_only: low, sure: from memory}
- {id: gastroscopy, title: Gastroscopy, plan: fasting only, bleeding_risk: low, sure: from memory}
)";

constexpr const char* findings = R"(- id: stroke_recent
  title: A stroke within three months
  level: ask
  topic: brain and mind
  hazard: clot
  who: [endoscopist, anaesthesia]
  when: {all: [{fact: had_stroke, is: yes}, {fact: stroke_date, within: {parameter: age_limit_months}}]}
  meanwhile: Go on as you do now.
  sources: [{source: paper, at: page 4}]
  sure: reported
- id: too_heavy
  title: Heavier than the table bears
  level: stop
  topic: sedation and site
  hazard: breathing
  who: [anaesthesia]
  when: {fact: weight, above: {parameter: table_limit}}
  meanwhile: We ring you.
  sure: common practice
- id: very_light
  title: Lighter than usual
  level: note
  topic: sedation and site
  hazard: breathing
  who: [nurse]
  when: {any: [{fact: weight, below: 45 kg}, {calculated: age, at_least: 90 years}]}
  not_knowing: {accept: nothing hangs on it}
  sure: common practice
- id: answers_differ
  title: Two answers differ
  level: ask
  topic: record
  hazard: wrong patient
  who: [endoscopist]
  when: {record: conflict}
  meanwhile: We look into it.
  kind: record
  sure: common practice
)";

constexpr const char* holds = R"(- id: thinner_two_days
  title: The thinner before a procedure of high risk
  for: [thinner]
  when: {all: [{bleeding_risk: high}, {calculated: cockcroft_gault, at_least: 50 mL/min}]}
  action: omit days
  number: 2 days
  protects: by omitting
  restart:
    low: {earliest: 0 days, sources: [{source: book, at: table 3}], sure: published}
    high: {earliest: 2 days, latest: 3 days, sources: [{source: book, at: table 3}], sure: published}
  topic: blood thinners
  hazard: bleeding
  who: [endoscopist]
  meanwhile: Go on taking it.
  sources: [{source: book, at: table 2}]
  sure: published
- id: thinner_low
  title: The thinner before a procedure of low risk
  for: thinner
  policy: {question: thinner_low_risk, option: one_day}
  when: {bleeding_risk: low}
  action: omit days
  number: 1 day
  protects: by omitting
  topic: blood thinners
  hazard: bleeding
  who: [endoscopist]
  meanwhile: Go on taking it.
  sources: [{source: book, at: table 2}]
  sure: published
- id: iron_seven_days
  title: Iron before a colonoscopy
  for: [iron_tablet]
  when: {procedure: colonoscopy}
  action: omit days
  number: 7 days
  too_short_below: 5 days
  protects: by omitting
  topic: gut and preparation
  hazard: view
  who: [nurse]
  sure: common practice
- id: weekly_injection
  title: The weekly injection
  for: [weight_loss]
  action: ask first
  topic: fasting
  hazard: aspiration
  who: [anaesthesia]
  meanwhile: Do not take the next one before we ring.
  sure: from memory
)";

constexpr const char* preparations = R"(- id: large_jug
  generic: A large jug, in two halves
  described_as: [one jug with powder]
  first: {title: First half, steps: [{what: "Glass {n} of {of}", times: 8, every: 15 minutes, amount: 240 mL}]}
  second: {title: Second half, steps: [{what: "Glass {n} of {of}", times: 8, every: 15 minutes, amount: 240 mL}]}
  second_starts:
    - {earliest: 6 hours, latest: 4 hours, sources: [{source: book, at: page 5}], sure: published}
  between_starts: {from: 10 hours, to: 12 hours, sources: [{source: book, at: page 5}]}
  last_solid: {at: "12:00", words: A light lunch, sure: common practice}
  no_medicine_before: {time: 60 minutes, sources: [{source: book, at: page 6}]}
  spacing: {classes: [iron], before: 2 hours, after: 6 hours}
  limits:
    - id: jug_too_light
      title: Too light for the jug
      level: ask
      topic: gut and preparation
      hazard: fluid and salts
      who: [endoscopist]
      when: {fact: weight, at_most: 30 kg}
      meanwhile: Do not drink it yet.
      sure: from memory
  sure: from memory
)";

constexpr const char* readiness = R"(- id: inr_low_enough
  title: INR below the limit
  kind: holds the patient
  when: {takes: thinner}
  check: {fact: inr_today, all: [{at_least: 0.8}, {below: 1.5}]}
  would_make_it_ready: A lower value.
  topic: blood thinners
  hazard: bleeding
  who: [endoscopist]
  sure: common practice
- id: somebody_to_go_home_with
  title: An escort is named
  kind: needs a clinician
  check: {confirmed: escort_named}
  would_make_it_ready: A name.
  topic: escort and home
  hazard: harm on the way home
  who: [nurse]
  sure: common practice
- id: nothing_drunk
  title: Nothing drunk
  kind: holds the patient
  check: {fasting: clear liquid, hours: {parameter: liquid_hours}}
  would_make_it_ready: Waiting.
  topic: fasting
  hazard: aspiration
  who: [anaesthesia]
  sure: common practice
- id: held_as_told
  title: Medicines held as told
  kind: needs a clinician
  check: holds as taken
  would_make_it_ready: A decision.
  topic: other medicines
  hazard: bleeding
  who: [endoscopist]
  sure: common practice
)";

}  // namespace

std::map<std::string, std::string> small_protocol()
{
    return {{"protocol.yaml", main_file},
            {"sources.yaml", sources},
            {"parameters.yaml", parameters},
            {"policy_questions.yaml", policy_questions},
            {"facts.yaml", facts},
            {"classes.yaml", classes},
            {"medicines.yaml", medicines},
            {"procedures.yaml", procedures},
            {"findings.yaml", findings},
            {"holds.yaml", holds},
            {"preparations.yaml", preparations},
            {"readiness.yaml", readiness}};
}

std::string small_policy()
{
    return R"(unit: An Invented Unit
zone: America/New_York
hours: {opens: "07:00", closes: "16:30", days: [monday, tuesday, friday], holidays: [2027-05-31]}
parameters:
  liquid_hours: {value: 3 hours}
  table_limit: {value: 200 kg, reason: a new table, by: Dr Invented, role: medical director, on: 2026-11-02}
answers: {thinner_low_risk: {option: goes_on}}
confirms:
  - {items: [iron_seven_days, large_jug], by: Dr Invented, role: medical director, on: 2026-11-02}
standing_orders:
  - {holds: [iron_seven_days], director: Dr Invented, from: 2026-11-02, until: 2027-10-31}
preparations: [large_jug]
may_agree: {blood thinners: [endoscopist, cardiology]}
roster: [Dr Invented, {name: Dr Other, role: anaesthesia, phone: "7001"}]
roles: {medical director: [Dr Invented]}
local_names: {large_jug: [the jug]}
)";
}

std::string small_case()
{
    return R"(case: X-1
zone: America/New_York
as_of: 2027-04-12T09:00
booking:
  patient: {name: Invented Person, number: P-1, born: 1961-03-02, sex: female}
  procedures: [colonoscopy]
  start: 2027-04-20T09:30
  ordered: large_jug
facts:
  weight: 84.6 kg
  had_stroke: yes
  stroke_date: {value: 2026-11, words: last November, who: her daughter, informant: relative}
  creatinine: {value: 88.4 umol/L creatinine, source: document, dated: 2027-03-30, who: laboratory letter}
  escort_named: {not known: would not say}
medicines:
  list: closed
  items:
    - {id: m1, medicine: apixaban, dose: 5 mg, taken: daily, times: ["20:00", "08:00"], last_dose: 2027-04-12T08:00}
    - {id: m2, heard: little white pill, taken: {weekdays: [monday]}, from: import}
decisions:
  - {item: "hold:m1", answer: agree, who: Dr Invented, role: endoscopist, how: signed, when: 2027-04-12T10:00}
told:
  - {item: "hold:m1", when: 2027-04-12T10:30, last_dose: 2027-04-17}
concerns:
  - {words: she is short of breath, level: ask, topic: heart, who: Nurse Invented}
cleared: {by: Nurse Invented, role: nurse, when: 2027-04-12T11:00}
arrival:
  here_since: 2027-04-20T08:20
  measures: {inr_today: {value: 1.2, at: 2027-04-20T08:30}}
  intake: [{kind: clear liquid, at: 2027-04-20T06:45, what: water}]
  nothing_else: yes
  doses_taken: {m1: 2027-04-17T20:00}
  decided: [somebody_to_go_home_with]
done: {at: 2027-04-20T10:05}
)";
}

void write_all(const TemporaryFolder& folder, const std::map<std::string, std::string>& files)
{
    for (const auto& [name, text] : files) {
        folder.write(name, text);
    }
}

std::string changed(const std::string& text, const std::string& from, const std::string& to)
{
    const auto at = text.find(from);
    if (at == std::string::npos || text.find(from, at + 1) != std::string::npos) {
        throw std::runtime_error("does not stand exactly once: " + from);
    }
    return text.substr(0, at) + to + text.substr(at + from.size());
}

}  // namespace foreday::tests

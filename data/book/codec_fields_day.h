#pragma once
#include "data/book/codec_fields_value.h"
#include "data/book/contents_day.h"
#include "data/book/contents_decision.h"
#include "data/book/contents_unit.h"

/// As in codec_fields_value.h.
namespace foreday::book {

template <class Visitor, Is<Shown> T>
void fields(Visitor& visit, T& said)
{
    visit("page", said.page)("assessment", said.assessment)("protocol", said.protocol)("policy", said.policy)(
        "zone", said.zone);
}
template <class Visitor, Is<DecidedItem> T>
void fields(Visitor& visit, T& said)
{
    visit("item", said.item)("answer", said.answer)("words", said.words)("fingerprint", said.fingerprint)(
        "last_dose", said.last_dose);
}
template <class Visitor, Is<DecisionSigned> T>
void fields(Visitor& visit, T& said)
{
    visit("decided", said.decided)("shown", said.shown);
}
template <class Visitor, Is<DecisionSpoken> T>
void fields(Visitor& visit, T& said)
{
    visit("decided", said.decided)("shown", said.shown)("clinician", said.clinician)("role", said.role)(
        "spoken", said.spoken)("how", said.how)("read_back", said.read_back);
}
template <class Visitor, Is<DecisionFromOutside> T>
void fields(Visitor& visit, T& said)
{
    visit("decided", said.decided)("shown", said.shown)("who", said.who)("role", said.role)(
        "practice", said.practice)("how", said.how)("given", said.given)("document", said.document);
}
template <class Visitor, Is<Countersigned> T>
void fields(Visitor& visit, T& said)
{
    visit("entry", said.entry)("shown", said.shown);
}
template <class Visitor, Is<StillToDo> T>
void fields(Visitor& visit, T& said)
{
    visit("item", said.item)("who", said.who)("by", said.by);
}
template <class Visitor, Is<ClearanceGiven> T>
void fields(Visitor& visit, T& said)
{
    visit("for_start", said.for_start)("still_to_do", said.still_to_do)("shown", said.shown);
}
template <class Visitor, Is<ClearanceLapsed> T>
void fields(Visitor& visit, T& said)
{
    visit("because", said.because);
}
template <class Visitor, Is<ToldHold> T>
void fields(Visitor& visit, T& said)
{
    visit("item", said.item)("last_dose", said.last_dose);
}
template <class Visitor, Is<HoldsTold> T>
void fields(Visitor& visit, T& said)
{
    visit("holds", said.holds)("sheet", said.sheet)("words", said.words);
}
template <class Visitor, Is<SaidBack> T>
void fields(Visitor& visit, T& said)
{
    visit("entry", said.entry);
}
template <class Visitor, Is<SheetIssued> T>
void fields(Visitor& visit, T& said)
{
    visit("sheet", said.sheet)("language", said.language)("how", said.how);
}
template <class Visitor, Is<SheetSuperseded> T>
void fields(Visitor& visit, T& said)
{
    visit("sheet", said.sheet)("words", said.words);
}
template <class Visitor, Is<RestartDecided> T>
void fields(Visitor& visit, T& said)
{
    visit("item", said.item)("words", said.words)("from", said.from);
}
template <class Visitor, Is<RestartTold> T>
void fields(Visitor& visit, T& said)
{
    visit("items", said.items)("words", said.words);
}
template <class Visitor, Is<Arrived> T>
void fields(Visitor& visit, T& said)
{
    visit("here_since", said.here_since);
}
template <class Visitor, Is<Measured> T>
void fields(Visitor& visit, T& said)
{
    visit("fact", said.fact)("value", said.value)("words", said.words)("who", said.who);
}
template <class Visitor, Is<IntakeStated> T>
void fields(Visitor& visit, T& said)
{
    visit("intake", said.intake)("at", said.at)("what", said.what);
}
template <class Visitor, Is<DoseReallyTaken> T>
void fields(Visitor& visit, T& said)
{
    visit("medicine", said.medicine)("dose", said.dose);
}
template <class Visitor, Is<NothingElseTaken> T>
void fields(Visitor& /*visit*/, T& /*said*/)
{
}
template <class Visitor, Is<ItemConfirmed> T>
void fields(Visitor& visit, T& said)
{
    visit("item", said.item)("fact", said.fact)("confirmed", said.confirmed)("words", said.words);
}
template <class Visitor, Is<Escalated> T>
void fields(Visitor& visit, T& said)
{
    visit("item", said.item)("to", said.to)("words", said.words);
}
template <class Visitor, Is<DecidedAtDesk> T>
void fields(Visitor& visit, T& said)
{
    visit("item", said.item)("who", said.who)("role", said.role)("reason", said.reason)("as_it_read",
                                                                                        said.as_it_read);
}
template <class Visitor, Is<GoneIn> T>
void fields(Visitor& visit, T& said)
{
    visit("at", said.at);
}
template <class Visitor, Is<NotToday> T>
void fields(Visitor& visit, T& said)
{
    visit("words", said.words);
}
template <class Visitor, Is<WorkDone> T>
void fields(Visitor& visit, T& said)
{
    visit("ended", said.ended)("procedures", said.procedures)("words", said.words);
}
template <class Visitor, Is<QualityStated> T>
void fields(Visitor& visit, T& said)
{
    visit("words", said.words);
}
template <class Visitor, Is<CaseClosed> T>
void fields(Visitor& visit, T& said)
{
    visit("words", said.words);
}
template <class Visitor, Is<ProtocolInForce> T>
void fields(Visitor& visit, T& said)
{
    visit("version", said.version)("hash", said.hash)("document", said.document);
}
template <class Visitor, Is<PolicyInForce> T>
void fields(Visitor& visit, T& said)
{
    visit("unit", said.unit)("hash", said.hash)("document", said.document);
}
template <class Visitor, Is<OnDuty> T>
void fields(Visitor& visit, T& said)
{
    visit("who", said.who)("role", said.role)("phone", said.phone)("from", said.from)("until", said.until);
}
template <class Visitor, Is<RosterSet> T>
void fields(Visitor& visit, T& said)
{
    visit("on_duty", said.on_duty);
}
template <class Visitor, Is<Looked> T>
void fields(Visitor& visit, T& said)
{
    visit("page", said.page);
}
template <class Visitor, Is<Printed> T>
void fields(Visitor& visit, T& said)
{
    visit("page", said.page)("document", said.document);
}
template <class Visitor, Is<SignedIn> T>
void fields(Visitor& /*visit*/, T& /*said*/)
{
}

}  // namespace foreday::book

#pragma once
#include "data/book/codec_fields_value.h"
#include "data/book/contents_booking.h"
#include "data/book/contents_call.h"

/// As in codec_fields_value.h.
namespace foreday::book {

template <class Visitor, Is<PatientMade> T>
void fields(Visitor& visit, T& said)
{
    visit("name", said.name)("number", said.number)("born", said.born)("sex", said.sex)("phones",
                                                                                        said.phones);
}
template <class Visitor, Is<PatientChanged> T>
void fields(Visitor& visit, T& said)
{
    visit("name", said.name)("number", said.number)("born", said.born)("sex", said.sex)(
        "phones", said.phones)("words", said.words);
}
template <class Visitor, Is<PatientMerged> T>
void fields(Visitor& visit, T& said)
{
    visit("away", said.away)("into", said.into)("words", said.words);
}
template <class Visitor, Is<PatientSplit> T>
void fields(Visitor& visit, T& said)
{
    visit("away", said.away)("from", said.from)("words", said.words);
}
template <class Visitor, Is<OrderedPreparation> T>
void fields(Visitor& visit, T& said)
{
    visit("id", said.id)("words", said.words);
}
template <class Visitor, Is<BookingMade> T>
void fields(Visitor& visit, T& said)
{
    visit("patient", said.patient)("procedures", said.procedures)("start", said.start)("ordered",
                                                                                       said.ordered);
}
template <class Visitor, Is<PatientLinked> T>
void fields(Visitor& visit, T& said)
{
    visit("patient", said.patient)("words", said.words);
}
template <class Visitor, Is<Rescheduled> T>
void fields(Visitor& visit, T& said)
{
    visit("start", said.start)("procedures", said.procedures)("ordered", said.ordered)("words", said.words);
}
template <class Visitor, Is<CalledOff> T>
void fields(Visitor& visit, T& said)
{
    visit("words", said.words);
}
template <class Visitor, Is<DidNotCome> T>
void fields(Visitor& visit, T& said)
{
    visit("words", said.words);
}
template <class Visitor, Is<Answered> T>
void fields(Visitor& visit, T& said)
{
    visit("fact", said.fact)("value", said.value)("why_not_known", said.why_not_known)("words", said.words)(
        "informant", said.informant)("who", said.who)("interpreter", said.interpreter)(
        "strength", said.strength)("origin", said.origin)("dated", said.dated);
}
template <class Visitor, Is<AnswerSetAside> T>
void fields(Visitor& visit, T& said)
{
    visit("entry", said.entry)("words", said.words);
}
template <class Visitor, Is<EntryStruck> T>
void fields(Visitor& visit, T& said)
{
    visit("entry", said.entry)("words", said.words);
}
template <class Visitor, Is<StatedMedicine> T>
void fields(Visitor& visit, T& said)
{
    visit("medicine", said.medicine)("heard", said.heard)("dose", said.dose)("pattern", said.pattern)(
        "prescriber", said.prescriber)("reason", said.reason)("last_dose", said.last_dose)(
        "origin", said.origin)("informant", said.informant)("who", said.who);
}
template <class Visitor, Is<MedicineAdded> T>
void fields(Visitor& visit, T& said)
{
    visit("id", said.id)("medicine", said.medicine);
}
template <class Visitor, Is<MedicineChanged> T>
void fields(Visitor& visit, T& said)
{
    visit("id", said.id)("medicine", said.medicine);
}
template <class Visitor, Is<MedicineStopped> T>
void fields(Visitor& visit, T& said)
{
    visit("id", said.id)("words", said.words);
}
template <class Visitor, Is<ListClosed> T>
void fields(Visitor& visit, T& said)
{
    visit("gone_through", said.gone_through)("informant", said.informant)("who", said.who);
}
template <class Visitor, Is<ListReopened> T>
void fields(Visitor& visit, T& said)
{
    visit("words", said.words);
}
template <class Visitor, Is<NoteMade> T>
void fields(Visitor& visit, T& said)
{
    visit("words", said.words);
}
template <class Visitor, Is<ConcernRaised> T>
void fields(Visitor& visit, T& said)
{
    visit("words", said.words)("level", said.level)("topic", said.topic);
}
template <class Visitor, Is<TryMade> T>
void fields(Visitor& visit, T& said)
{
    visit("call", said.call)("outcome", said.outcome)("words", said.words);
}
template <class Visitor, Is<PatientRangIn> T>
void fields(Visitor& visit, T& said)
{
    visit("call", said.call)("words", said.words);
}
template <class Visitor, Is<CallEndedForEmergency> T>
void fields(Visitor& visit, T& said)
{
    visit("call", said.call)("words", said.words);
}
template <class Visitor, Is<OutsideAskSent> T>
void fields(Visitor& visit, T& said)
{
    visit("id", said.id)("item", said.item)("what", said.what)("whom", said.whom)("reply_by", said.reply_by);
}
template <class Visitor, Is<OutsideAskAnswered> T>
void fields(Visitor& visit, T& said)
{
    visit("id", said.id)("answer", said.answer)("document", said.document);
}
template <class Visitor, Is<HandedOver> T>
void fields(Visitor& visit, T& said)
{
    visit("to", said.to)("words", said.words);
}

}  // namespace foreday::book

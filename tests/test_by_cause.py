"""Faults that come from one slip are told as one: which of them is told, and in what order."""

from booklet.kit.diagnostic import Diagnostic, Severity, Span, by_cause

HERE = Span.whole("pattern.yaml")


def fault(message, cause=None, severity=Severity.ERROR, follows=False):
    return Diagnostic(
        code="x", severity=severity, message=message, span=HERE, cause=cause, follows=follows
    )


def told(*faults):
    return [
        (each.first.message, [other.message for other in each.following])
        for each in by_cause(faults)
    ]


def test_of_one_cause_the_first_error_that_is_no_consequence_is_told():
    assert told(
        fault("a consequence", "slip", follows=True),
        fault("a warning", "slip", Severity.WARNING),
        fault("the error", "slip"),
        fault("a later one", "slip"),
    ) == [("the error", ["a consequence", "a warning", "a later one"])]


def test_faults_stand_in_the_order_of_those_that_are_told():
    assert told(
        fault("of the second", "two", follows=True),
        fault("first", "one"),
        fault("alone"),
        fault("second", "two"),
        fault("alone"),
    ) == [("first", []), ("alone", []), ("second", ["of the second"]), ("alone", [])]

"""Acts, rules and events on states whose course is known by hand."""

import numpy as np
import pytest

from thermsim.solver import (
    Act,
    After,
    Agenda,
    ArraySystem,
    Effect,
    Event,
    Rule,
    Settings,
    solve,
)

WITHIN = 0.1
ONE = np.array([0.0, 1.0])


def steady(speed=1.0):
    """One state rising at a fixed speed, and a second that never moves by itself."""
    return ArraySystem(
        lambda t, y: np.array([speed, 0.0]), ["x", "count"], np.eye(2), np.full(2, 1e-6)
    )


def run(agenda, t_end=10.0, y0=(0.0, 0.0), speed=1.0, settings=Settings()):  # noqa: B008
    return solve(steady(speed), np.array(y0), t_end, agenda, settings)


def nothing(t, y):
    return None


def told(solution, kind=None):
    return [h.name for h in solution.happenings if kind is None or h.kind == kind]


def test_acts_before_rules_and_both_in_file_order():
    rules = [
        Rule("second rule", 4, lambda t, y: t - 5.0, nothing),
        Rule("first rule", 3, lambda t, y: t - 5.0, nothing),
    ]
    acts = [Act(5.0, 2, "second act", nothing), Act(5.0, 1, "first act", nothing)]
    solution = run(Agenda(acts, rules))
    assert told(solution) == ["first act", "second act", "first rule", "second rule"]
    assert [h.time for h in solution.happenings] == [5.0] * 4
    assert solution.outcome.key == "finished"


def test_a_rule_acts_where_it_becomes_true_and_once():
    solution = run(Agenda(rules=[Rule("at three", 0, lambda t, y: y[0] - 3.0, nothing)]))
    assert told(solution) == ["at three"]
    assert solution.happenings[0].time == pytest.approx(3.0, abs=WITHIN)
    assert solution.trajectory.restarts == 1


def test_a_rule_true_at_the_start_acts_at_once():
    solution = run(Agenda(rules=[Rule("already", 0, lambda t, y: 1.0, nothing)]))
    assert solution.happenings[0].time == 0.0


def test_a_rule_acts_again_only_after_having_been_false():
    def back(t, y):
        return Effect(np.array([0.0, y[1] + 1.0]))

    solution = run(Agenda(rules=[Rule("back", 0, lambda t, y: y[0] - 3.0, back, again=True)]))
    times = [h.time for h in solution.happenings]
    assert times == pytest.approx([3.0, 6.0, 9.0], abs=WITHIN)
    assert solution.trajectory(10.0)[1] == 3.0
    stays = run(Agenda(rules=[Rule("stays", 0, lambda t, y: y[0] - 3.0, nothing, again=True)]))
    assert told(stays) == ["stays"]


def test_a_rule_false_only_in_between_two_restarts_acts_again():
    """True for sin t >= 0.5: from pi/6 and from 13 pi/6, by hand."""
    rule = Rule("wave", 0, lambda t, y: np.sin(t) - 0.5, nothing, again=True)
    solution = run(Agenda(rules=[rule]), t_end=12.0, settings=Settings(look_every=1.0))
    expected = [np.pi / 6.0, np.pi / 6.0 + 2.0 * np.pi]
    assert [h.time for h in solution.happenings] == pytest.approx(expected, abs=WITHIN)


def test_a_rule_that_another_makes_true_acts_at_the_same_moment():
    def raise_count(t, y):
        return Effect(np.array([y[0], 1.0]))

    rules = [
        Rule("follows", 0, lambda t, y: y[1] - 0.5, nothing),
        Rule("leads", 1, lambda t, y: y[0] - 3.0, raise_count),
    ]
    solution = run(Agenda(rules=rules))
    assert told(solution) == ["leads", "follows"]
    assert solution.happenings[0].time == solution.happenings[1].time


def test_rules_that_undo_each_other_end_the_firing():
    rules = [
        Rule("open", 0, lambda t, y: 0.5 - y[1], lambda t, y: Effect(y + ONE), again=True),
        Rule("shut", 1, lambda t, y: y[1] - 0.5, lambda t, y: Effect(y - ONE), again=True),
    ]
    solution = run(Agenda(rules=rules))
    assert solution.outcome.key == "rule_undoes_itself"
    assert "open" in solution.outcome.detail
    assert solution.trajectory.t1 == 0.0


def test_a_rule_without_a_gap_undoes_itself():
    """It puts the value back by a hair each time, so that it acts every 5 ms."""
    rule = Rule(
        "hair", 0, lambda t, y: y[0] - 3.0, lambda t, y: Effect(y - [0.005, 0.0]), again=True
    )
    solution = run(Agenda(rules=[rule]))
    assert solution.outcome.key == "rule_undoes_itself"
    assert 3.0 < solution.trajectory.t1 < 4.0


def test_a_rule_may_stop_the_firing():
    stop = Rule("enough", 0, lambda t, y: y[0] - 3.0, lambda t, y: Effect(stop=True, note="done"))
    solution = run(Agenda(rules=[stop]))
    assert solution.outcome.key == "stopped_by_rule"
    assert "enough" in solution.outcome.detail
    assert solution.outcome.complete
    assert solution.trajectory.t1 == pytest.approx(3.0, abs=WITHIN)
    assert solution.happenings[0].note == "done"


def test_an_event_is_noted_without_interrupting():
    events = [
        Event("warm", lambda t, y: y[0] - 3.21),
        Event("held", lambda t, y: y[0]),
        Event("not from the start", lambda t, y: y[0], at_start=False),
        Event("falls", lambda t, y: 4.0 - y[0], direction=-1),
    ]
    solution = run(Agenda(events=events))
    assert told(solution, "event") == ["held", "warm", "falls"]
    times = [h.time for h in solution.happenings]
    assert times == pytest.approx([0.0, 3.21, 4.0], abs=WITHIN)
    assert solution.trajectory.restarts == 0


def test_an_event_brought_about_by_an_act_is_noted_then():
    act = Act(5.0, 0, "empty", lambda t, y: Effect(y - [100.0, 0.0]))
    solution = run(
        Agenda([act], events=[Event("dry", lambda t, y: y[0], direction=-1, at_start=False)])
    )
    assert told(solution) == ["empty", "dry"]
    assert solution.happenings[1].time == 5.0


def test_changes_of_sign_are_noted_both_ways_when_asked():
    event = Event("turned", lambda t, y: np.cos(t), direction=0, latched=False)
    solution = run(Agenda(events=[event]), t_end=8.0, settings=Settings(look_every=1.0))
    expected = [0.5 * np.pi, 1.5 * np.pi, 2.5 * np.pi]
    assert [h.time for h in solution.happenings] == pytest.approx(expected, abs=WITHIN)
    assert [h.note for h in solution.happenings] == ["falling", "rising", "falling"]


def test_a_short_excursion_within_a_long_step_is_not_missed():
    """The step may be an hour long; the value is positive for 20 s only."""
    event = Event("short", lambda t, y: 10.0 - abs(t - 1805.0))
    rule = Rule("acts", 0, lambda t, y: 10.0 - abs(t - 2805.0), nothing)
    solution = run(Agenda(rules=[rule], events=[event]), t_end=3600.0)
    assert told(solution) == ["short", "acts"]
    assert [h.time for h in solution.happenings] == pytest.approx([1795.0, 2795.0], abs=WITHIN)


@pytest.mark.parametrize("seconds", [0.0, 0.001, 2.5])
def test_something_follows_an_event_after_so_many_seconds(seconds):
    agenda = Agenda(
        events=[Event("warm", lambda t, y: y[0] - 3.0)],
        afters=[After("warm", seconds, 0, "shut the door", nothing)],
    )
    solution = run(agenda)
    assert told(solution) == ["warm", "shut the door"]
    assert agenda.time_of("warm") == pytest.approx(3.0, abs=WITHIN)
    waited = agenda.time_of("shut the door") - agenda.time_of("warm")
    assert waited == pytest.approx(seconds, abs=1e-9)


def test_something_may_follow_an_act_or_a_rule():
    agenda = Agenda(
        [Act(1.0, 0, "light", nothing)],
        [Rule("rake", 1, lambda t, y: y[0] - 4.0, nothing)],
        afters=[After("light", 2.0, 2, "shut", nothing), After("rake", 1.0, 3, "open", nothing)],
    )
    solution = run(agenda)
    assert told(solution) == ["light", "shut", "rake", "open"]
    assert agenda.time_of("never") is None


def test_following_something_unknown_is_refused():
    with pytest.raises(ValueError, match="boyling"):
        Agenda(afters=[After("boyling", 1.0, 0, "shut", nothing)])


def test_kinks_that_an_act_announces_are_restarts():
    act = Act(2.0, 0, "door", lambda t, y: Effect(jumps=(t + 1.5, t + 3.0)))
    solution = run(Agenda([act]))
    edges = solution.trajectory.step_edges
    assert {2.0, 3.5, 5.0} <= set(edges.tolist())
    assert solution.trajectory.restarts == 3


def test_an_agenda_can_be_run_twice():
    agenda = Agenda([Act(1.0, 0, "a", nothing)], [Rule("b", 1, lambda t, y: y[0] - 3.0, nothing)])
    assert told(run(agenda)) == told(run(agenda)) == ["a", "b"]


def test_an_act_cannot_spoil_the_past():
    def careless(t, y):
        y[:] = -1.0

    solution = run(Agenda([Act(2.0, 0, "careless", careless)]))
    assert solution.trajectory(2.0)[0] == pytest.approx(2.0, abs=1e-6)

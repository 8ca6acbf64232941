package quadrille.treatment.restaging;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.PlanChange.AreaPass;
import quadrille.plan.course.PlanChange.What;
import quadrille.plan.course.PlanChange.Why;
import quadrille.plan.course.Visit;
import quadrille.plan.work.StepAspect;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.StepDone;

/** What a new plan changes against the one before, and why. */
final class PlanChanges {
  private final CourseState state;
  private final Course course;
  private final List<PlanChange> changes = new ArrayList<>();

  PlanChanges(CourseState state, Course course) {
    this.state = state;
    this.course = course;
  }

  /**
   * @param before the practice whose figures the old plan rests on
   * @param now the one that this plan rests on
   */
  List<PlanChange> list(Practice before, Practice now) {
    if (!before.equals(now)) {
      changes.add(
          new PlanChange(
              null, new What.OtherPractice(now.name(), before.name()), Why.Known.OTHER_PRACTICE));
    }
    for (Visit old : state.toCome()) {
      Visit visit = visit(course, old.number());
      if (visit == null) {
        fallsAway(old);
      } else {
        changed(old, visit);
      }
    }
    for (Visit visit : course.visits()) {
      if (state.toCome().stream().noneMatch(old -> old.number() == visit.number())) {
        add(
            visit,
            new What.IsNew(visit.bookedMinutes(), List.copyOf(passes(visit))),
            Why.Known.TOO_LITTLE_ROOM);
      }
    }
    return List.copyOf(changes);
  }

  private static @Nullable Visit visit(Course course, int number) {
    return course.visits().stream()
        .filter(visit -> visit.number() == number)
        .findFirst()
        .orElse(null);
  }

  private void fallsAway(Visit old) {
    boolean left = passes(old).stream().anyMatch(this::planned);
    add(
        old,
        new What.FallsAway(state.booked().containsKey(old.number())),
        left ? Why.Known.FEWER_VISITS_DO : Why.Known.NOTHING_LEFT);
  }

  private void changed(Visit old, Visit visit) {
    for (AreaPass pass : passes(visit)) {
      if (!passes(old).contains(pass)) {
        add(visit, new What.Takes(pass), why(pass));
      }
    }
    for (AreaPass pass : passes(old)) {
      if (!passes(visit).contains(pass)) {
        add(
            visit,
            new What.NoLongerHas(pass),
            planned(pass) ? Why.Known.PUT_TOGETHER_ANEW : Why.Known.DONE_EARLY);
      }
    }
    for (AreaPass pass : passes(old)) {
      if (passes(visit).contains(pass) && !work(old, pass).equals(work(visit, pass))) {
        add(
            visit,
            new What.Seconds(pass, seconds(visit, pass), seconds(old, pass)),
            doneEarly(pass) ? Why.Known.PARTLY_DONE_EARLY : whyOther());
      }
    }
    if (old.bookedMinutes() != visit.bookedMinutes()) {
      Event.@Nullable Appointment booked = state.booked().get(old.number());
      add(
          visit,
          new What.Needs(
              visit.bookedMinutes(),
              old.bookedMinutes(),
              booked == null ? null : Integer.valueOf(booked.minutes())),
          Why.Known.OTHER_WORK);
    }
    if (old.numbSide() != visit.numbSide()) {
      add(visit, new What.Numbs(visit.numbSide(), old.numbSide()), Why.Known.OTHER_WORK);
    }
    if (!sorted(old).equals(sorted(visit))) {
      add(visit, new What.Gives(visit.injections(), old.injections()), Why.Known.OTHER_NUMBING);
    } else if (changes.stream().noneMatch(one -> Objects.equals(one.visit(), visit.number()))
        && !old.sequence().equals(visit.sequence())) {
      add(visit, new What.OtherOrder(), whyOther());
    }
  }

  private Why why(AreaPass pass) {
    for (CourseLog.Recorded one : state.recorded()) {
      for (StepDone step : one.done().steps()) {
        if (pass(step).equals(pass) && !step.whole()) {
          boolean begun =
              one.done().steps().stream()
                  .anyMatch(other -> pass(other).equals(pass) && other.share() > 0);
          return new Why.LeftUndone(one.done().visit(), begun);
        }
      }
    }
    return state.toCome().stream().anyMatch(visit -> passes(visit).contains(pass))
        ? Why.Known.PUT_TOGETHER_ANEW
        : Why.Known.FINDINGS_ASK;
  }

  private boolean planned(AreaPass pass) {
    return course.visits().stream().anyMatch(visit -> passes(visit).contains(pass));
  }

  private boolean doneEarly(AreaPass pass) {
    return state.recorded().stream()
        .flatMap(one -> one.done().steps().stream())
        .anyMatch(step -> pass(step).equals(pass) && step.share() > 0);
  }

  private Why whyOther() {
    return state.findings().isEmpty() ? Why.Known.OTHER_FIGURES : Why.Known.NEW_FINDINGS;
  }

  private static AreaPass pass(Entry.Debride step) {
    return new AreaPass(step.area(), step.pass());
  }

  private static AreaPass pass(StepDone step) {
    return new AreaPass(step.area(), step.pass());
  }

  private static Set<AreaPass> passes(Visit visit) {
    Set<AreaPass> passes = new LinkedHashSet<>();
    visit.steps().forEach(step -> passes.add(pass(step)));
    return passes;
  }

  /** What a step sweeps, and with what. */
  private record Sweep(StepAspect aspect, String insert, List<Tooth> teeth) {}

  /** Seconds by what is swept, whatever the order. */
  private static Map<Sweep, Integer> work(Visit visit, AreaPass pass) {
    Map<Sweep, Integer> work = new LinkedHashMap<>();
    visit.steps().stream()
        .filter(step -> pass(step).equals(pass))
        .forEach(
            step ->
                work.merge(
                    new Sweep(step.aspect(), step.insert(), step.teeth()),
                    step.seconds(),
                    Integer::sum));
    return work;
  }

  private static int seconds(Visit visit, AreaPass pass) {
    return work(visit, pass).values().stream().mapToInt(Integer::intValue).sum();
  }

  /** What is injected, whatever the order and the volume. */
  private static List<Injected> sorted(Visit visit) {
    return visit.injections().stream()
        .map(given -> new Injected(given.ref(), given.agent()))
        .sorted(Comparator.comparing(Injected::toString))
        .toList();
  }

  private record Injected(InjectionRef injection, String agent) {}

  private void add(Visit visit, What what, Why why) {
    changes.add(new PlanChange(visit.number(), what, why));
  }
}

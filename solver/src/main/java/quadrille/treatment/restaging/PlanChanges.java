package quadrille.treatment.restaging;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.StepDone;

/** What a new plan changes against the one before, and why. */
final class PlanChanges {
  private final CourseState state;
  private final Course course;
  private final Numbering numbering;
  private final List<PlanChange> changes = new ArrayList<>();

  PlanChanges(CourseState state, Course course) {
    this.state = state;
    this.course = course;
    this.numbering = state.chart().numbering();
  }

  /**
   * @param before the practice whose figures the old plan rests on
   * @param now the one that this plan rests on
   */
  List<PlanChange> list(Practice before, Practice now) {
    if (!before.equals(now)) {
      changes.add(
          new PlanChange(
              null,
              before.name().equals(now.name())
                  ? "The practice's figures are others, under the same name, " + now.name() + "."
                  : "The practice's figures are those of "
                      + now.name()
                      + ", not of "
                      + before.name()
                      + ".",
              "Another practice file was named."));
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
            "Visit "
                + visit.number()
                + " is new, "
                + visit.bookedMinutes()
                + " min: "
                + String.join("; ", passes(visit))
                + ".",
            "What is left does not fit into the visits to come.");
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
    boolean left =
        old.steps().stream()
            .anyMatch(
                step -> course.visits().stream().anyMatch(v -> passes(v).contains(pass(step))));
    add(
        old,
        "Visit "
            + old.number()
            + " falls away"
            + (state.booked().containsKey(old.number()) ? ", though it is booked." : "."),
        left ? "What is left fits into fewer visits." : "Nothing is left for it.");
  }

  private void changed(Visit old, Visit visit) {
    String name = "Visit " + old.number();
    for (String pass : passes(visit)) {
      if (!passes(old).contains(pass)) {
        add(visit, name + " takes the " + pass + ".", why(pass));
      }
    }
    for (String pass : passes(old)) {
      if (!passes(visit).contains(pass)) {
        add(visit, name + " no longer has the " + pass + ".", whyGone(pass));
      }
    }
    for (String pass : passes(old)) {
      if (passes(visit).contains(pass) && !work(old, pass).equals(work(visit, pass))) {
        add(
            visit,
            String.format(
                Locale.ROOT,
                "%s: the %s takes %.1f min, not %.1f.",
                name,
                pass,
                seconds(visit, pass) / 60.0,
                seconds(old, pass) / 60.0),
            doneEarly(pass) ? "A part of it was done early." : whyOther());
      }
    }
    if (old.bookedMinutes() != visit.bookedMinutes()) {
      add(
          visit,
          name
              + " needs "
              + visit.bookedMinutes()
              + " min, not "
              + old.bookedMinutes()
              + kept(old, visit),
          "Its work has changed.");
    }
    if (old.numbSide() != visit.numbSide()) {
      add(
          visit,
          name + " numbs " + visit.numbSide().word() + ", not " + old.numbSide().word() + ".",
          "Its work has changed.");
    }
    String before = injections(old);
    String after = injections(visit);
    if (!before.equals(after)) {
      add(
          visit,
          name + " gives " + after + ", not " + before + ".",
          "What must be numb has changed.");
    } else if (changes.stream().noneMatch(one -> Objects.equals(one.visit(), visit.number()))
        && !old.sequence().equals(visit.sequence())) {
      add(visit, name + " takes its steps in another order.", whyOther());
    }
  }

  private String kept(Visit old, Visit visit) {
    Event.@Nullable Appointment booked = state.booked().get(old.number());
    if (booked == null) {
      return ".";
    }
    return visit.bookedMinutes() <= booked.minutes()
        ? "; the " + booked.minutes() + " that are booked hold it."
        : "; it is booked for " + booked.minutes() + " and must be booked anew.";
  }

  private String why(String pass) {
    for (CourseLog.Recorded one : state.recorded()) {
      for (StepDone step : one.done().steps()) {
        if (pass(step).equals(pass) && !step.whole()) {
          boolean begun =
              one.done().steps().stream()
                  .anyMatch(other -> pass(other).equals(pass) && other.share() > 0);
          return "Visit "
              + one.done().visit()
              + (begun ? " did only a part of it." : " did not do it.");
        }
      }
    }
    boolean planned = state.toCome().stream().anyMatch(visit -> passes(visit).contains(pass));
    return planned ? "The visits to come were put together anew." : "New findings ask for it.";
  }

  private String whyGone(String pass) {
    boolean elsewhere = course.visits().stream().anyMatch(v -> passes(v).contains(pass));
    return elsewhere ? "The visits to come were put together anew." : "It was done early.";
  }

  private boolean doneEarly(String pass) {
    return state.recorded().stream()
        .flatMap(one -> one.done().steps().stream())
        .anyMatch(step -> pass(step).equals(pass) && step.share() > 0);
  }

  private String whyOther() {
    return state.findings().isEmpty()
        ? "The practice's figures have changed."
        : "New findings were charted.";
  }

  private String pass(Entry.Debride step) {
    return step.pass().word() + " pass of " + step.area().name(numbering);
  }

  private String pass(StepDone step) {
    return step.pass().word() + " pass of " + step.area().name(numbering);
  }

  private Set<String> passes(Visit visit) {
    Set<String> passes = new LinkedHashSet<>();
    visit.steps().forEach(step -> passes.add(pass(step)));
    return passes;
  }

  /** Seconds by what is swept, whatever the order. */
  private Map<String, Integer> work(Visit visit, String pass) {
    Map<String, Integer> work = new LinkedHashMap<>();
    visit.steps().stream()
        .filter(step -> pass(step).equals(pass))
        .forEach(
            step ->
                work.merge(
                    step.aspect() + " " + step.insert() + " " + step.teeth(),
                    step.seconds(),
                    Integer::sum));
    return work;
  }

  private int seconds(Visit visit, String pass) {
    return work(visit, pass).values().stream().mapToInt(Integer::intValue).sum();
  }

  private String injections(Visit visit) {
    List<String> words =
        visit.injections().stream()
            .sorted(Comparator.comparing(given -> words(given, Numbering.ISO3950)))
            .map(given -> words(given, numbering))
            .toList();
    return words.isEmpty() ? "no injection" : String.join(", ", words);
  }

  private static String words(GivenInjection given, Numbering numbering) {
    return given.ref().name(numbering) + " (" + given.agent() + ")";
  }

  private void add(Visit visit, String what, String why) {
    changes.add(new PlanChange(visit.number(), what, why));
  }
}

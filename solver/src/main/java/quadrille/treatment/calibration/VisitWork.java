package quadrille.treatment.calibration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Numbness;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;
import quadrille.plan.work.WorkMinutes;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.PartMinutes;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** Turns a recorded visit into timed stretches, with the seconds that a practice file expects. */
final class VisitWork {

  /**
   * A part expected to be shorter is taken together with the others like it, or with the rest of
   * the visit: whole minutes tell too little about it, and none at all is no number to weigh.
   */
  private static final double SHORT_SECONDS = 240;

  private final Practice practice;
  private final List<PracticeTime> times;
  private final WorkMinutes minutes;
  private final Map<PracticeTime.Kind, Integer> first;

  /**
   * @param practice what the multipliers are relative to
   */
  VisitWork(Practice practice) {
    this.practice = practice;
    this.times = PracticeTime.of(practice);
    this.minutes = new WorkMinutes(practice.minutes());
    this.first = new EnumMap<>(PracticeTime.Kind.class);
    for (int k = 0; k < times.size(); k++) {
      first.putIfAbsent(times.get(k).kind(), k);
    }
  }

  List<PracticeTime> times() {
    return times;
  }

  /**
   * What a record tells.
   *
   * @param visit its stretches; null where the record cannot be used
   * @param troubles why it cannot be used; empty where it can
   */
  record Told(@Nullable TimedVisit visit, List<Trouble> troubles) {}

  /** Reads a record, whether interrupted or not. */
  Told told(CourseLog.Recorded recorded) {
    VisitDone done = recorded.done();
    Double whole = done.minutes();
    List<StepDone> steps = inOrder(recorded.planned(), done.steps());
    List<Trouble> troubles = new ArrayList<>();
    List<Stretch> parts = new ArrayList<>();
    Stretch small = new Stretch(0, new double[times.size()], 0, 0);
    for (PartMinutes part : done.parts()) {
      double[] expected = new double[times.size()];
      addSteps(recorded.chart(), steps, part, expected);
      Stretch stretch = new Stretch(60 * part.minutes(), expected, 0, 1);
      if (stretch.sum() == 0) {
        troubles.add(new Trouble.NoStepOf(part.area(), part.pass(), recorded.chart().numbering()));
      } else if (stretch.sum() < SHORT_SECONDS || part.minutes() <= 0) {
        small = small.with(stretch);
      } else {
        parts.add(stretch);
      }
    }
    if (!troubles.isEmpty()) {
      return new Told(null, troubles);
    }
    if (whole == null) {
      if (small.seconds() > 0) {
        parts.add(small);
      }
      return parts.isEmpty()
          ? new Told(null, List.of(Trouble.Known.NO_MINUTES))
          : new Told(new TimedVisit(done.clinician(), parts), List.of());
    }
    if (whole <= 0) {
      return new Told(null, List.of(Trouble.Known.NO_MINUTES));
    }
    if (small.sum() >= SHORT_SECONDS && small.seconds() > 0) {
      parts.add(small);
    }
    Failures failures = failures(recorded);
    double[] all = expected(recorded);
    double known = known(recorded);
    for (Given repeat : failures.unnoted()) {
      add(all, PracticeTime.Kind.INJECTION_HANDLING, 0, 1);
      known += injecting(repeat) + onset(repeat);
    }
    Stretch rest = new Stretch(60 * whole - failures.seconds(), all, known, 1 + failures.noted());
    for (Stretch part : parts) {
      rest = rest.without(part);
    }
    if (rest.seconds() <= 0) {
      return new Told(null, List.of(Trouble.Known.PARTS_TOO_LONG));
    }
    parts.add(rest);
    return new Told(new TimedVisit(done.clinician(), parts), List.of());
  }

  /**
   * What failed injections added to a visit. Plans book it by the share of blocks that fail, so it
   * is no part of how the work varies.
   *
   * @param repeats what was injected in place of those that failed
   * @param unnoted of the repeats, those of failures of which nobody noted the minutes
   * @param seconds that were noted
   * @param noted how many failures have them
   */
  private record Failures(List<Given> repeats, List<Given> unnoted, double seconds, int noted) {}

  /** A repeat is an injection beyond the plan's, if there is one of the same kind at the place. */
  private static Failures failures(CourseLog.Recorded recorded) {
    List<Given> beyond = new ArrayList<>(recorded.done().injections());
    if (recorded.planned() != null) {
      for (GivenInjection planned : recorded.planned().injections()) {
        beyond.stream()
            .filter(given -> given.ref().equals(planned.ref()))
            .findFirst()
            .ifPresent(beyond::remove);
      }
    }
    List<Given> repeats = new ArrayList<>();
    List<Given> unnoted = new ArrayList<>();
    double seconds = 0;
    int noted = 0;
    for (Observation finding : recorded.done().findings()) {
      if (finding instanceof Observation.FailedInjection failed) {
        Given repeat =
            beyond.stream()
                .filter(given -> given.ref().equals(failed.ref()))
                .findFirst()
                .orElse(beyond.isEmpty() ? null : beyond.get(0));
        if (repeat != null) {
          beyond.remove(repeat);
          repeats.add(repeat);
        }
        if (failed.minutes() != null) {
          seconds += 60 * failed.minutes();
          noted++;
        } else if (repeat != null) {
          unnoted.add(repeat);
        }
      }
    }
    return new Failures(repeats, unnoted, seconds, noted);
  }

  /** Injections as they would have been had none failed. */
  private static List<Given> sound(CourseLog.Recorded recorded) {
    List<Given> sound = new ArrayList<>(recorded.done().injections());
    failures(recorded).repeats().forEach(sound::remove);
    return sound;
  }

  /** Seconds until a repeat is numb, by the practice file; none where it has no such injection. */
  private int onset(Given given) {
    Injection kind = practice.injections().get(given.injection());
    Agent agent = practice.agents().get(given.agent());
    return kind == null || agent == null ? 0 : Numbness.onsetSeconds(kind, agent);
  }

  /** The injections of a visit that may fail, and what that takes: the repeat, and its onset. */
  List<VisitTime.Failure> mayFail(CourseLog.Recorded recorded) {
    List<VisitTime.Failure> failures = new ArrayList<>();
    for (Given given : sound(recorded)) {
      Injection kind = practice.injections().get(given.injection());
      Figure share = kind == null ? null : kind.failureShare();
      if (share != null && practice.agents().get(given.agent()) != null) {
        double repeat = practice.numbing().handlingSeconds().value() + injecting(given);
        failures.add(new VisitTime.Failure(share.value(), repeat + onset(given)));
      }
    }
    return failures;
  }

  /**
   * Seconds that the practice file expects of the whole visit as it was done, by time; as if no
   * injection had failed.
   */
  double[] expected(CourseLog.Recorded recorded) {
    VisitDone done = recorded.done();
    double[] expected = new double[times.size()];
    addSteps(recorded.chart(), inOrder(recorded.planned(), done.steps()), null, expected);
    add(expected, PracticeTime.Kind.INJECTION_HANDLING, 0, sound(recorded).size());
    add(expected, PracticeTime.Kind.SET_UP_AND_CLOSE, 0, 1);
    return expected;
  }

  /**
   * Seconds of the whole visit that no multiplier changes: waits, gel, the frame, a look, the
   * volumes injected; as if no injection had failed.
   */
  double known(CourseLog.Recorded recorded) {
    double known = 0;
    for (Given given : sound(recorded)) {
      known += injecting(given);
    }
    Visit planned = recorded.planned();
    if (planned == null) {
      return known;
    }
    for (Entry entry : planned.sequence()) {
      boolean fixed =
          entry.kind() == Entry.Kind.WAIT
              || entry instanceof Entry.OfFrame
              || entry instanceof Entry.Look
              || entry instanceof Entry.Probe;
      known += fixed ? entry.seconds() : 0;
    }
    return known + planned.gelEntries().stream().mapToInt(Entry::seconds).sum();
  }

  private double injecting(Given given) {
    Injection kind = practice.injections().get(given.ref().injection());
    Figure own = kind == null ? null : kind.mlPerMinute();
    return 60 * given.ml() / (own == null ? practice.numbing().mlPerMinute() : own).value();
  }

  /** Steps of which something was done, in the order of the plan; those it had not, at the end. */
  private static List<StepDone> inOrder(@Nullable Visit planned, List<StepDone> steps) {
    List<Entry.Debride> order = planned == null ? List.of() : planned.steps();
    return steps.stream()
        .filter(step -> step.share() > 0)
        .sorted(Comparator.comparingInt(step -> place(order, step)))
        .toList();
  }

  private static int place(List<Entry.Debride> order, StepDone step) {
    for (int i = 0; i < order.size(); i++) {
      Entry.Debride planned = order.get(i);
      if (planned.area().equals(step.area())
          && planned.pass() == step.pass()
          && planned.aspect() == step.aspect()
          && planned.teeth().stream().sorted().toList().equals(step.teeth())) {
        return i;
      }
    }
    return order.size();
  }

  /**
   * Adds working seconds and changes between steps.
   *
   * @param part only its steps, and only changes from one of them right to another; null for all
   */
  private void addSteps(
      Chart chart, List<StepDone> steps, @Nullable PartMinutes part, double[] expected) {
    StepDone before = null;
    for (StepDone step : steps) {
      boolean belongs =
          part == null || (step.area().equals(part.area()) && step.pass() == part.pass());
      if (belongs) {
        addWork(chart, step, expected);
        if (before != null) {
          addChange(before, step, expected);
        }
      }
      before = belongs ? step : null;
    }
  }

  private void addChange(StepDone from, StepDone to, double[] expected) {
    if (!from.insert().equals(to.insert()) && !(hand(from) && hand(to))) {
      add(expected, PracticeTime.Kind.TIP_CHANGE, 0, 1);
    }
    if (!from.area().equals(to.area())) {
      add(expected, PracticeTime.Kind.REPOSITION_AREA, 0, 1);
    } else if (from.aspect() != to.aspect()) {
      add(expected, PracticeTime.Kind.REPOSITION_ASPECT, 0, 1);
    }
  }

  private void addWork(Chart chart, StepDone step, double[] expected) {
    for (Tooth name : step.teeth()) {
      ToothChart tooth = chart.tooth(name).orElse(null);
      if (tooth == null) {
        continue;
      }
      for (Aspect aspect : step.aspect().aspects()) {
        double seconds =
            step.share() * methodFactor(step) * minutes.seconds(tooth, step.pass(), aspect);
        switch (step.pass()) {
          case FINE -> addFine(tooth, aspect, seconds, expected);
          case GROSS ->
              expected[at(PracticeTime.Kind.GROSS) + tooth.deposit().ordinal()] += seconds;
          case FINISHING -> expected[at(PracticeTime.Kind.FINISHING)] += seconds;
          case IMPLANT_CARE -> expected[at(PracticeTime.Kind.IMPLANT_CARE)] += seconds;
        }
      }
    }
  }

  private double methodFactor(StepDone step) {
    return hand(step) ? practice.minutes().handFactor().value() : 1;
  }

  private boolean hand(StepDone step) {
    Insert insert = practice.inserts().get(step.insert());
    return insert != null && insert.hand();
  }

  /** Splits a tooth's seconds over the bands of its sites, and what its furcation adds. */
  private void addFine(ToothChart tooth, Aspect aspect, double all, double[] expected) {
    double factor =
        Math.max(1, practice.minutes().furcationFactor().get(tooth.furcation()).value());
    expected[at(PracticeTime.Kind.FURCATION)] += all - all / factor;
    addBands(tooth, aspect, all / factor, expected);
  }

  private void addBands(ToothChart tooth, Aspect aspect, double seconds, double[] expected) {
    List<Site> sites = tooth.sites(aspect);
    double all = 0;
    for (Site site : sites) {
      all += minutes.siteSeconds(depth(site)).value();
    }
    if (all == 0) {
      return;
    }
    for (Site site : sites) {
      double depth = depth(site);
      expected[at(PracticeTime.Kind.FINE) + band(depth)] +=
          seconds * minutes.siteSeconds(depth).value() / all;
    }
  }

  private double depth(Site site) {
    Integer depth = site.depthMm();
    return depth == null ? practice.minutes().provisionalDepthMm().value() : depth;
  }

  private int band(double depth) {
    int band = 0;
    List<Minutes.FineBand> bands = practice.minutes().fineBands();
    for (int i = 0; i < bands.size(); i++) {
      if (depth >= bands.get(i).fromMm()) {
        band = i;
      }
    }
    return band;
  }

  private void add(double[] expected, PracticeTime.Kind kind, int index, int count) {
    int k = at(kind) + index;
    expected[k] += count * times.get(k).seconds().value();
  }

  private int at(PracticeTime.Kind kind) {
    return first.getOrDefault(kind, -1);
  }
}

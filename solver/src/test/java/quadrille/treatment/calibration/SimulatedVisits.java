package quadrille.treatment.calibration;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.course.Awaited;
import quadrille.plan.course.Entry;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkMinutes;
import quadrille.plan.work.WorkPlanner;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.PartMinutes;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/**
 * Visits over random mouths, and records of them as a practice with known times would have made
 * them. A visit takes the steps of a quadrant or of half a mouth, in the order of the work list.
 * The seconds come from the known practice's own figures, not from what is tested.
 */
final class SimulatedVisits {

  private static final Practice DEFAULTS = CalibratedPractice.parted(PracticeReader.defaults());
  private static final int MOUTHS = 60;

  /**
   * Work to be done in one visit.
   *
   * @param injections how many, of 1.5 mL each
   * @param waitSeconds for numbness
   */
  record Task(Chart chart, List<Step> steps, int injections, int waitSeconds) {}

  /**
   * A practice whose times are known.
   *
   * @param multipliers by the practice's times, relative to the default practice
   * @param speeds of its clinicians, named a, b, c ...
   */
  record Known(double[] multipliers, double[] speeds, double sigma) {

    double of(PracticeTime.Kind kind, int index) {
      List<PracticeTime> times = PracticeTime.of(DEFAULTS);
      for (int k = 0; k < times.size(); k++) {
        if (times.get(k).kind() == kind && times.get(k).index() == index) {
          return multipliers[k];
        }
      }
      throw new IllegalArgumentException(kind + " " + index);
    }
  }

  private SimulatedVisits() {}

  static List<Task> tasks() {
    List<Task> tasks = new ArrayList<>();
    List<Profile> profiles =
        List.of(Profile.TREATMENT, Profile.TREATMENT, Profile.SEVERE, Profile.IMPLANTS);
    for (int seed = 0; seed < MOUTHS; seed++) {
      Chart chart = MouthGenerator.mouth(seed, profiles.get(seed % profiles.size()));
      List<Step> steps;
      try {
        steps = WorkPlanner.plan(chart, DEFAULTS, Area.of(chart)).steps();
      } catch (UnworkableException e) {
        throw new AssertionError(e);
      }
      boolean halves = seed % 2 == 0;
      Map<String, List<Step>> visits = new LinkedHashMap<>();
      for (Step step : steps) {
        Quadrant quadrant = step.area().quadrant();
        visits
            .computeIfAbsent(
                halves ? quadrant.side().name() : quadrant.name(), key -> new ArrayList<>())
            .add(step);
      }
      for (List<Step> visit : visits.values()) {
        boolean numb = visit.stream().anyMatch(Step::needsInjection);
        tasks.add(
            new Task(chart, visit, numb ? (halves ? 4 : 2) : 0, numb && seed % 3 == 0 ? 120 : 0));
      }
    }
    return List.copyOf(tasks);
  }

  /** Seconds of each step by the known practice, at its clinician's speed. */
  private static double work(Task task, Step step, Known known, double speed) {
    WorkMinutes minutes = new WorkMinutes(practice(known).minutes());
    double sum = 0;
    for (var name : step.teeth()) {
      ToothChart tooth = task.chart().tooth(name).orElseThrow();
      sum += minutes.seconds(tooth, step.pass(), step.aspect());
    }
    return speed * sum;
  }

  private static final Map<Known, Practice> PRACTICES = new java.util.IdentityHashMap<>();

  /** The default practice with the known times. */
  static synchronized Practice practice(Known known) {
    return PRACTICES.computeIfAbsent(known, SimulatedVisits::built);
  }

  private static Practice built(Known known) {
    return CalibratedPractice.of(
        DEFAULTS, known.multipliers(), DEFAULTS.minutes().spreadSigma(), k -> "simulated");
  }

  /** How a record was timed. */
  enum Timing {
    WHOLE,
    PARTS,
    BOTH,
    /** Both, to the second. */
    CHAIR
  }

  /**
   * Expected seconds of a visit by the known practice: what is fixed, and the work.
   *
   * @param parts by area and pass, in order, changes within a part included
   */
  record Truth(double fixed, double work, Map<String, double[]> parts) {

    double all() {
      return fixed + work;
    }
  }

  static Truth truth(Task task, Known known, double speed) {
    double setUp =
        known.of(PracticeTime.Kind.SET_UP_AND_CLOSE, 0)
            * 60
            * (DEFAULTS.minutes().setUpMinutes().value()
                + DEFAULTS.minutes().closeMinutes().value());
    double handling =
        known.of(PracticeTime.Kind.INJECTION_HANDLING, 0)
            * DEFAULTS.numbing().handlingSeconds().value();
    double fixed = setUp + task.injections() * (handling + 90) + task.waitSeconds();
    double work = 0;
    Map<String, double[]> parts = new LinkedHashMap<>();
    Step before = null;
    for (Step step : task.steps()) {
      double[] part =
          parts.computeIfAbsent(step.area().ref() + "|" + step.pass().name(), key -> new double[2]);
      double own = work(task, step, known, speed);
      work += own;
      part[0] += own;
      if (before != null) {
        double change = 0;
        if (!before.insert().name().equals(step.insert().name())) {
          change += known.of(PracticeTime.Kind.TIP_CHANGE, 0) * 60;
        }
        boolean sameArea = before.area().equals(step.area());
        if (!sameArea) {
          change += known.of(PracticeTime.Kind.REPOSITION_AREA, 0) * 30;
        } else if (before.aspect() != step.aspect()) {
          change += known.of(PracticeTime.Kind.REPOSITION_ASPECT, 0) * 15;
        }
        fixed += speed * change;
        if (sameArea && before.pass() == step.pass()) {
          part[1] += speed * change;
        }
      }
      before = step;
    }
    return new Truth(fixed, work, parts);
  }

  /**
   * A record of a visit. Timed as a whole, its work has one lognormal error with the mean 1; timed
   * by parts, each part has the visit's error and its own.
   *
   * @param visitShare share of the variance that is the visit's
   */
  static CourseLog.Recorded record(
      Task task, Known known, int clinician, Timing timing, double visitShare, Random random) {
    Truth truth = truth(task, known, known.speeds()[clinician]);
    List<PartMinutes> parts = new ArrayList<>();
    double seconds;
    if (timing == Timing.WHOLE) {
      seconds = truth.fixed() * error(0.2, random) + truth.work() * error(known.sigma(), random);
    } else {
      double shared = error(known.sigma() * Math.sqrt(visitShare), random);
      double inParts = 0;
      double expected = 0;
      for (Map.Entry<String, double[]> part : truth.parts().entrySet()) {
        double work = part.getValue()[0];
        double own =
            error(known.sigma() * Math.sqrt((1 - visitShare) * truth.work() / work), random);
        double took = work * shared * own + part.getValue()[1] * error(0.2, random);
        inParts += took;
        expected += part.getValue()[1];
        String[] key = part.getKey().split("\\|");
        parts.add(
            new PartMinutes(AreaRef.of(key[0]), Pass.valueOf(key[1]), read(took, timing, random)));
      }
      seconds = inParts + (truth.fixed() - expected) * error(0.2, random);
    }
    return recorded(
        task,
        known,
        clinician,
        timing == Timing.PARTS ? null : read(seconds, timing, random),
        parts);
  }

  private static double read(double seconds, Timing timing, Random random) {
    return timing == Timing.CHAIR ? Math.rint(seconds) / 60 : whole(seconds, random);
  }

  /** Minutes between two readings of a clock that shows whole minutes. */
  private static double whole(double seconds, Random random) {
    double start = random.nextDouble();
    return Math.floor(start + seconds / 60);
  }

  private static double error(double sigma, Random random) {
    return Math.exp(sigma * random.nextGaussian() - sigma * sigma / 2);
  }

  private static CourseLog.Recorded recorded(
      Task task,
      Known known,
      int clinician,
      @org.jspecify.annotations.Nullable Double minutes,
      List<PartMinutes> parts) {
    List<Entry> sequence = new ArrayList<>();
    List<StepDone> steps = new ArrayList<>();
    sequence.add(new Entry.SetUp(0, 600));
    if (task.waitSeconds() > 0) {
      sequence.add(
          new Entry.Wait(600, task.waitSeconds(), new Awaited.Numbness(List.of(Quadrant.UR))));
    }
    for (Step step : task.steps()) {
      sequence.add(
          new Entry.Debride(
              600,
              step.seconds(),
              step.area().ref(),
              step.aspect(),
              step.pass(),
              step.insert().name(),
              step.power(),
              step.needsInjection(),
              step.teeth()));
      steps.add(
          new StepDone(
              step.area().ref(),
              step.pass(),
              step.aspect(),
              step.teeth(),
              step.insert().name(),
              1));
    }
    List<Given> injections = new ArrayList<>();
    for (int i = 0; i < task.injections(); i++) {
      injections.add(new Given("infiltration", Quadrant.UR, null, "articaine-4-200", 1.5));
    }
    Visit planned =
        new Visit(
            1,
            NumbSide.RIGHT,
            60,
            0.2,
            List.of(),
            List.of(),
            List.of(),
            0,
            0,
            0,
            0,
            sequence,
            List.of(),
            List.of(),
            List.of());
    VisitDone done =
        new VisitDone(
            1,
            LocalDate.of(2026, 3, 2),
            String.valueOf((char) ('a' + clinician)),
            steps,
            injections,
            Collections.emptySortedMap(),
            minutes,
            parts,
            60,
            false,
            List.of(),
            "");
    return new CourseLog.Recorded(2, planned, task.chart(), done);
  }
}

package quadrille.treatment.calibration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** Learns from recorded courses. */
public final class Calibrator {

  /** Estimates that are so much against each other are known by their sum. An assumption. */
  private static final double TOGETHER = -0.5;

  private final Practice base;
  private final VisitWork work;
  private final Assumed assumed;
  private final List<Used> used = new ArrayList<>();
  private final List<Calibration.Unused> unused = new ArrayList<>();

  private Calibrator(Practice base) {
    this.base = base;
    this.work = new VisitWork(base);
    this.assumed = Assumed.standard(base.minutes().spreadSigma().value());
  }

  /**
   * A record that says something.
   *
   * @param practice that its course was planned with
   */
  private record Used(
      Calibration.VisitName name,
      Practice practice,
      CourseLog.Recorded recorded,
      TimedVisit timed) {}

  /**
   * The times of a practice that have been calibrated already. To learn from them would count the
   * visits behind them twice.
   */
  public static List<PracticeTime> calibratedAlready(Practice practice) {
    return PracticeTime.of(practice).stream().filter(time -> time.seconds().calibrated()).toList();
  }

  /**
   * Learns a practice's times.
   *
   * @param base the practice file before any calibration; the times it has are what is believed
   *     until records say otherwise
   * @param courses in any order; a visit that two of them record alike counts once
   */
  public static Calibration calibrate(Practice base, List<CourseLog> courses) {
    boolean any = courses.stream().anyMatch(course -> !course.recorded().isEmpty());
    Calibrator calibrator = new Calibrator(any ? CalibratedPractice.parted(base) : base);
    Set<Record> seen = new LinkedHashSet<>();
    for (CourseLog course : courses) {
      for (CourseLog.Recorded recorded : course.recorded()) {
        calibrator.take(course, recorded, seen);
      }
    }
    return calibrator.calibration(courses.size());
  }

  private void take(CourseLog course, CourseLog.Recorded recorded, Set<Record> seen) {
    VisitDone done = recorded.done();
    Calibration.VisitName name =
        new Calibration.VisitName(course.planned().course().caseName(), done.visit());
    record OfCase(String course, VisitDone done) {}
    if (!seen.add(new OfCase(name.course(), done))) {
      unused.add(new Calibration.Unused(name, List.of(Trouble.Known.COUNTED_ONCE)));
      return;
    }
    if (done.interrupted()) {
      unused.add(new Calibration.Unused(name, List.of(Trouble.Known.INTERRUPTED)));
      return;
    }
    VisitWork.Told told = work.told(recorded);
    TimedVisit timed = told.visit();
    if (timed == null) {
      unused.add(new Calibration.Unused(name, told.troubles()));
    } else {
      used.add(new Used(name, course.practiceAt(recorded.entry()), recorded, timed));
    }
  }

  private Calibration calibration(int courses) {
    Fit fit = fit(used.stream().map(Used::timed).toList());
    List<Calibration.TimeLearned> times = new ArrayList<>();
    for (int k = 0; k < work.times().size(); k++) {
      int visits = 0;
      for (int v = 0; v < used.size(); v++) {
        visits += !fit.outlier(v) && has(used.get(v).timed(), k) ? 1 : 0;
      }
      times.add(new Calibration.TimeLearned(work.times().get(k), fit.multipliers().get(k), visits));
    }
    SortedMap<String, Integer> counts = new TreeMap<>();
    used.forEach(one -> counts.merge(one.timed().clinician(), 1, Integer::sum));
    List<Calibration.ClinicianLearned> clinicians = new ArrayList<>();
    fit.clinicians()
        .forEach(
            (name, speed) ->
                clinicians.add(
                    new Calibration.ClinicianLearned(
                        name, speed, counts.getOrDefault(name, 0), learning(name, fit))));
    List<Calibration.Outlier> outliers = new ArrayList<>();
    for (int v = 0; v < used.size(); v++) {
      if (fit.outlier(v)) {
        TimedVisit timed = used.get(v).timed();
        double seconds = seconds(timed);
        double expected = expected(timed, fit);
        outliers.add(new Calibration.Outlier(used.get(v).name(), seconds / 60, expected / 60));
      }
    }
    return new Calibration(
        base,
        courses,
        used.size(),
        times,
        clinicians,
        together(times, fit),
        fit.bookingSpread(),
        outliers,
        unused,
        new Forecasts().forecast(fit));
  }

  private static double seconds(TimedVisit timed) {
    return timed.stretches().stream().mapToDouble(Stretch::seconds).sum();
  }

  private double expected(TimedVisit timed, Fit fit) {
    return timed.stretches().stream()
        .mapToDouble(
            one ->
                time(one.expected(), one.known(), timed.clinician(), fit, List.of())
                    .expectedSeconds())
        .sum();
  }

  /** Whether a clinician became quicker from visit to visit; outliers left out. */
  private @Nullable Learning learning(String clinician, Fit fit) {
    return Learning.of(
        IntStream.range(0, used.size())
            .filter(v -> used.get(v).timed().clinician().equals(clinician) && !fit.outlier(v))
            .boxed()
            .sorted(Comparator.comparing((Integer v) -> used.get(v).recorded().done().date()))
            .map(v -> Math.log(seconds(used.get(v).timed()) / expected(used.get(v).timed(), fit)))
            .toList());
  }

  /** Pairs of times that were recorded, and of which little but the sum is known. */
  private static List<Calibration.Together> together(List<Calibration.TimeLearned> times, Fit fit) {
    List<Calibration.Together> together = new ArrayList<>();
    for (int k = 0; k < times.size(); k++) {
      for (int other = k + 1; other < times.size(); other++) {
        if (times.get(k).visits() > 0
            && times.get(other).visits() > 0
            && fit.correlation(k, other) < TOGETHER) {
          together.add(new Calibration.Together(times.get(k).time(), times.get(other).time()));
        }
      }
    }
    return together;
  }

  private Fit fit(List<TimedVisit> visits) {
    return Fitter.fit(work.times(), assumed, visits);
  }

  private static boolean has(TimedVisit visit, int time) {
    return visit.stretches().stream().anyMatch(stretch -> stretch.expected()[time] > 0);
  }

  /** How long work takes by the calibrated times. */
  private VisitTime time(
      double[] expected,
      double known,
      String clinician,
      Fit fit,
      List<VisitTime.Failure> failures) {
    Estimate own = fit.clinicians().get(clinician);
    double speed = own == null ? 1 : own.value();
    double fixed = known;
    double working = 0;
    for (int k = 0; k < expected.length; k++) {
      PracticeTime.Kind kind = work.times().get(k).kind();
      double seconds = expected[k] * fit.multipliers().get(k).value() * (kind.byHand() ? speed : 1);
      if (kind.working()) {
        working += seconds;
      } else {
        fixed += seconds;
      }
    }
    return new VisitTime(fixed, working, fit.bookingSpread().value(), failures);
  }

  /** Looks back at what was booked. */
  private final class Forecasts {

    /** Fewer visits than this are not booked anew: too few to learn from without them. */
    private static final int FEWEST = 5;

    /** In so many groups, each booked by what the others tell. */
    private static final int GROUPS = 10;

    private final List<Used> booked = new ArrayList<>();

    Forecasts() {
      for (Used one : used) {
        if (one.recorded().done().minutes() != null && one.recorded().planned() != null) {
          booked.add(one);
        }
      }
    }

    Forecast forecast(Fit fit) {
      int inTime = 0;
      double certainty = 0;
      double promised = 0;
      double calibrated = 0;
      double[] chances = new double[booked.size()];
      for (int i = 0; i < booked.size(); i++) {
        Used one = booked.get(i);
        int minutes = one.recorded().done().bookedMinutes();
        inTime += inTime(one, minutes) ? 1 : 0;
        certainty += one.practice().appointments().certainty().value() / booked.size();
        chances[i] = asPlanned(one).chanceWithin(minutes);
        promised += chances[i] / booked.size();
        calibrated += whole(one, fit).chanceWithin(minutes) / booked.size();
      }
      return new Forecast(
          booked.size(),
          inTime,
          Binomial.low(inTime, booked.size(), Fit.CERTAINTY),
          Binomial.high(inTime, booked.size(), Fit.CERTAINTY),
          certainty,
          promised,
          Binomial.atMost(inTime, chances),
          Binomial.atLeast(inTime, chances),
          calibrated,
          rebooked());
    }

    private Forecast.Rebooked rebooked() {
      if (booked.size() < FEWEST) {
        return new Forecast.Rebooked(0, 0, 0, 0);
      }
      int inTime = 0;
      double before = 0;
      double now = 0;
      for (int group = 0; group < Math.min(GROUPS, booked.size()); group++) {
        List<Used> left = new ArrayList<>();
        for (int i = group; i < booked.size(); i += GROUPS) {
          left.add(booked.get(i));
        }
        Fit others =
            fit(used.stream().filter(one -> !left.contains(one)).map(Used::timed).toList());
        for (Used one : left) {
          int minutes =
              whole(one, others)
                  .booked(
                      base.appointments().unitMinutes().asInt(),
                      base.appointments().certainty().value());
          inTime += inTime(one, minutes) ? 1 : 0;
          before += (double) one.recorded().done().bookedMinutes() / booked.size();
          now += (double) minutes / booked.size();
        }
      }
      return new Forecast.Rebooked(booked.size(), inTime, before, now);
    }

    private VisitTime whole(Used one, Fit fit) {
      return time(
          work.expected(one.recorded()),
          work.known(one.recorded()),
          one.timed().clinician(),
          fit,
          work.mayFail(one.recorded()));
    }

    /** What the plan said of the visit. */
    private VisitTime asPlanned(Used one) {
      Visit visit = one.recorded().planned();
      if (visit == null) {
        throw new IllegalStateException("Only planned visits are looked at.");
      }
      int working = visit.steps().stream().mapToInt(Entry.Debride::seconds).sum();
      return new VisitTime(
          visit.expectedSeconds() - working,
          working,
          one.practice().minutes().spreadSigma().value(),
          new VisitWork(one.practice()).mayFail(one.recorded()));
    }

    private boolean inTime(Used one, int minutes) {
      @Nullable Double took = one.recorded().done().minutes();
      return took != null
          && took <= minutes
          && one.recorded().done().steps().stream().allMatch(StepDone::whole);
    }
  }
}

package quadrille.treatment.record;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Assumption;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.Entry;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.plan.work.StepAspect;

/** Logs whose figures show the form and mean nothing. */
final class SampleLogs {
  static final OffsetDateTime NINE = OffsetDateTime.parse("2026-03-02T09:00:00+01:00");

  private SampleLogs() {}

  static Event.Planned planned() {
    return new Event.Planned(course(1, 2), chart(), PracticeReader.defaults());
  }

  static Course course(int... visits) {
    return new Course(
        "K-1042 \"quoted\" \u00fc",
        java.util.Arrays.stream(visits).mapToObj(SampleLogs::visit).toList(),
        7,
        14,
        6,
        12,
        new Cost(1000, 900, Map.of(CourseTerm.CHAIR_TIME, 1000L)),
        List.of(),
        List.of(new Assumption.AsWritten("an assumption")),
        List.of());
  }

  private static Visit visit(int number) {
    return new Visit(
        number,
        NumbSide.NONE,
        30,
        0.1,
        List.of(AreaRef.of("UR posterior")),
        List.of(),
        List.of(),
        0,
        0,
        0,
        0,
        List.of(
            new Entry.SetUp(0, 600),
            new Entry.Debride(
                600,
                100,
                AreaRef.of("UR posterior"),
                StepAspect.FACIAL,
                Pass.FINE,
                "slim curved right",
                Power.LOW,
                false,
                List.of(Tooth.ofIso(16))),
            new Entry.Close(700, 300)),
        List.of("slim curved right"),
        List.of(),
        List.of());
  }

  static Chart chart() {
    AspectReading reading =
        new AspectReading(new Site(5, 1, true), new Site(4, 0, false), new Site(6, 0, true));
    return new Chart(
        "K-1042 \"quoted\" \u00fc",
        LocalDate.of(2026, 2, 20),
        Numbering.ISO3950,
        new Patient(54, 70.5, 90, Set.of(), null, false),
        List.of(
            new ToothChart(
                Tooth.ofIso(16),
                ToothStatus.NATURAL,
                Deposit.LIGHT,
                0,
                0,
                Set.of(),
                reading,
                reading)));
  }

  static VisitDone done(int visit) {
    return new VisitDone(
        visit,
        LocalDate.of(2026, 3, 2),
        "clinician-a",
        List.of(
            new StepDone(
                AreaRef.of("UR posterior"),
                Pass.FINE,
                StepAspect.FACIAL,
                List.of(Tooth.ofIso(16)),
                "slim curved right",
                0.4)),
        List.of(
            new Given("posterior superior alveolar", Quadrant.UR, null, "articaine-4-200", 1.35),
            new Given("infiltration", Quadrant.UR, Tooth.ofIso(15), "articaine-4-200", 0.6)),
        new TreeMap<>(Map.of(Quadrant.UR, 0.5)),
        47.25,
        List.of(new PartMinutes(AreaRef.of("UR posterior"), Pass.FINE, 12.5)),
        60,
        true,
        List.of(
            new Observation.Depth(Tooth.ofIso(16), Aspect.LINGUAL, 2, 8, true),
            new Observation.Depth(Tooth.ofIso(16), Aspect.FACIAL, 0, 6, null),
            new Observation.FailedInjection("posterior superior alveolar", Quadrant.UR, null, 12.5),
            new Observation.Pus(Tooth.ofIso(16), Aspect.LINGUAL),
            new Observation.BrokenSleeve(Tooth.ofIso(16))),
        "left early");
  }

  static Event.Booked booked(String clinician) {
    return new Event.Booked(
        List.of(
            new Event.Appointment(2, LocalDateTime.parse("2026-03-09T09:30"), 60, clinician),
            new Event.Appointment(3, LocalDateTime.parse("2026-03-16T09:30"), 50, null)));
  }
}

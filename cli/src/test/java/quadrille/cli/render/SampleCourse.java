package quadrille.cli.render;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.course.Assumption;
import quadrille.plan.course.Awaited;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WatchSite;
import quadrille.plan.work.StepAspect;

/** A course made up to show every kind of line; its figures belong to no mouth. */
final class SampleCourse {

  private static final String AGENT = "articaine-4-200";

  private SampleCourse() {}

  static Chart chart(Numbering numbering) {
    return new Chart(
        "K-1042",
        LocalDate.of(2026, 3, 2),
        numbering,
        new Patient(54, 70.0, 90, Set.of(), null, false),
        List.of());
  }

  static Course course(List<HeldBack> heldBack) {
    Map<CourseTerm, Long> terms = new LinkedHashMap<>();
    terms.put(CourseTerm.CHAIR_TIME, 4200L);
    terms.put(CourseTerm.BALANCE, 150L);
    terms.put(CourseTerm.INJECTIONS, 120L);
    return new Course(
        "K-1042",
        List.of(numb(), implant()),
        7,
        14,
        6,
        12,
        new Cost(4470, 4400, terms),
        heldBack,
        Stream.of("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
            .<Assumption>map(Assumption.AsWritten::new)
            .toList(),
        List.of(new Caution.AsWritten("Diabetes: morning, short and fed.")));
  }

  static HeldBack held(int... teeth) {
    return new HeldBack(
        AreaRef.of("UR posterior 18-17"),
        Pass.FINE,
        StepAspect.FACIAL,
        teeth(teeth),
        new HeldBack.AsWritten("the patient's weight is not charted"));
  }

  private static Visit numb() {
    Clock clock = new Clock();
    clock.add(at -> new Entry.SetUp(at, 600));
    clock.add(
        at ->
            new Entry.Inject(
                at, 114, new InjectionRef("posterior superior alveolar", Quadrant.UR, null)));
    clock.add(
        at ->
            new Entry.Inject(
                at, 96, new InjectionRef("infiltration", Quadrant.UR, Tooth.ofIso(12))));
    clock.add(
        at ->
            new Entry.Debride(
                at,
                252,
                AreaRef.of("UR posterior"),
                StepAspect.FACIAL,
                Pass.GROSS,
                "standard bent",
                Power.MEDIUM,
                false,
                teeth(14, 15, 16, 17)));
    clock.add(at -> new Entry.ChangeTip(at, 60, "slim curved right"));
    clock.add(at -> new Entry.Wait(at, 78, new Awaited.Numbness(List.of(Quadrant.UR))));
    clock.add(
        at ->
            new Entry.Debride(
                at,
                1370,
                AreaRef.of("UR posterior"),
                StepAspect.FACIAL,
                Pass.FINE,
                "slim curved right",
                Power.LOW,
                true,
                teeth(14, 15, 16, 17)));
    clock.add(at -> new Entry.Reposition(at, 15, AreaRef.of("UR posterior"), StepAspect.LINGUAL));
    clock.add(at -> new Entry.Close(at, 300));
    return new Visit(
        1,
        NumbSide.RIGHT,
        60,
        0.174,
        java.util.stream.Stream.of("UR posterior", "UR anterior", "LR posterior", "LR anterior")
            .map(AreaRef::of)
            .toList(),
        List.of(
            new GivenInjection("posterior superior alveolar", Quadrant.UR, null, AGENT, 0.9),
            new GivenInjection("infiltration", Quadrant.UR, Tooth.ofIso(12), AGENT, 0.6)),
        List.of(new Dose(AGENT, 60, 490, 60 / 490.0)),
        0.0075,
        1,
        0,
        0,
        clock.entries,
        List.of("standard bent", "slim curved right"),
        List.of(
            new WatchSite.OfTooth(
                Tooth.ofIso(16),
                false,
                List.of(new WatchSite.Probed(Aspect.FACIAL, 0, 8)),
                2,
                0,
                List.of()),
            new WatchSite.OfTooth(
                Tooth.ofIso(47),
                false,
                List.of(new WatchSite.Probed(Aspect.LINGUAL, 2, 7)),
                0,
                0,
                List.of())),
        List.of(
            new Caution.AsWritten("Chart again after the gross pass."),
            new Caution.AsWritten("A second caution.")));
  }

  private static Visit implant() {
    Clock clock = new Clock();
    clock.add(at -> new Entry.SetUp(at, 600));
    clock.add(
        at ->
            new Entry.Debride(
                at,
                120,
                AreaRef.of("LL posterior"),
                StepAspect.BOTH,
                Pass.IMPLANT_CARE,
                "sleeved for implants",
                Power.LOW,
                false,
                teeth(36)));
    clock.add(at -> new Entry.Close(at, 300));
    return new Visit(
        2,
        NumbSide.NONE,
        20,
        0.0004,
        List.of(AreaRef.of("LL posterior")),
        List.of(),
        List.of(),
        0,
        0,
        0,
        1,
        clock.entries,
        List.of("sleeved for implants"),
        List.of(new WatchSite.OfTooth(Tooth.ofIso(36), true, List.of(), 0, 0, List.of())),
        List.of());
  }

  private static List<Tooth> teeth(int... codes) {
    return java.util.Arrays.stream(codes).mapToObj(Tooth::ofIso).toList();
  }

  /** Starts each entry where the last one ended. */
  private static final class Clock {
    private final List<Entry> entries = new ArrayList<>();

    void add(java.util.function.IntFunction<Entry> entry) {
      int at = entries.isEmpty() ? 0 : entries.get(entries.size() - 1).endSecond();
      entries.add(entry.apply(at));
    }
  }
}

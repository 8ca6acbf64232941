package quadrille.plan.course;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;

/** A course that uses every part of the plan file; its figures show the form and mean nothing. */
final class SampleCourses {

  private SampleCourses() {}

  static Course everything() {
    Map<CourseTerm, Long> terms = new LinkedHashMap<>();
    terms.put(CourseTerm.CHAIR_TIME, 1337L);
    terms.put(CourseTerm.INJECTIONS, 120L);
    return new Course(
        "K-1042",
        List.of(visit()),
        7,
        14,
        6,
        12,
        new Cost(1457, 1400, terms),
        List.of(new HeldBack("UR posterior", "fine", "facial", "14 16", "the weight is not known")),
        List.of("fine pass: 194 s a tooth (Yukna 1997)", "say \"assumption\" or \\ a source"),
        List.of());
  }

  private static Visit visit() {
    return new Visit(
        1,
        NumbSide.RIGHT,
        30,
        0.12345,
        List.of("LR posterior 47-46", "UL posterior"),
        List.of(
            new GivenInjection("inferior alveolar", Quadrant.LR, null, "articaine-4-200", 1.5),
            new GivenInjection(
                "lower incisor infiltration",
                Quadrant.LR,
                Tooth.ofIso(41),
                "articaine-4-200",
                0.6)),
        List.of(new Dose("articaine-4-200", 84, 490, 84 / 490.0), new Dose("gel", 0.5, 5, 0.1)),
        0.0105,
        2,
        0.5,
        1,
        List.of(
            new Entry.SetUp(0, 600),
            new Entry.Inject(600, 110, "inferior alveolar right"),
            new Entry.Inject(710, 56, "lower incisor infiltration 41"),
            new Entry.Wait(766, 434, "inferior alveolar right"),
            new Entry.Debride(
                1200,
                101,
                "LR posterior 47-46",
                StepAspect.FACIAL,
                Pass.FINE,
                "slim right-curved",
                Power.LOW,
                true,
                List.of(Tooth.ofIso(46), Tooth.ofIso(47))),
            new Entry.ChangeTip(1301, 60, "sleeved implant"),
            new Entry.Reposition(1361, 30, "UL posterior"),
            new Entry.Debride(
                1391,
                180,
                "UL posterior",
                StepAspect.BOTH,
                Pass.IMPLANT_CARE,
                "sleeved implant",
                Power.LOW,
                false,
                List.of(Tooth.ofIso(26))),
            new Entry.Close(1571, 300)),
        List.of("slim right-curved", "sleeved implant"),
        List.of("46: 7 mm"),
        List.of("Diabetes: book a short morning visit after a meal."));
  }
}

package quadrille.plan.course;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;

/** A course that uses every part of the plan file; its figures show the form and mean nothing. */
final class SampleCourses {

  private static final AreaRef CUT = AreaRef.of("LR posterior 47-46");

  private SampleCourses() {}

  /** A plan file of this course; of version 1 in ISO 3950 codes, of version 2 in 1 to 32. */
  static String file(int version) {
    String name = "plan-" + version + ".json";
    try (InputStream in = SampleCourses.class.getResourceAsStream(name)) {
      return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

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
        List.of(
            new HeldBack(
                AreaRef.of("UR posterior"),
                Pass.FINE,
                StepAspect.FACIAL,
                List.of(Tooth.ofIso(14), Tooth.ofIso(16)),
                new HeldBack.NoWeight())),
        List.of(
            new Assumption.AsWritten("fine pass: 194 s a tooth (Yukna 1997)"),
            new Assumption.AsWritten("say \"assumption\" or \\ a source")),
        List.of());
  }

  private static Visit visit() {
    return new Visit(
        1,
        NumbSide.RIGHT,
        30,
        0.12345,
        List.of(CUT, AreaRef.of("UL posterior")),
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
            new Entry.Inject(600, 110, new InjectionRef("inferior alveolar", Quadrant.LR, null)),
            new Entry.Inject(
                710,
                56,
                new InjectionRef("lower incisor infiltration", Quadrant.LR, Tooth.ofIso(41))),
            new Entry.Wait(766, 434, new Awaited.Numbness(List.of(Quadrant.LR))),
            new Entry.Debride(
                1200,
                101,
                CUT,
                StepAspect.FACIAL,
                Pass.FINE,
                "slim curved right",
                Power.LOW,
                true,
                List.of(Tooth.ofIso(46), Tooth.ofIso(47))),
            new Entry.ChangeTip(1301, 60, "sleeved for implants"),
            new Entry.Reposition(1361, 30, AreaRef.of("UL posterior"), StepAspect.BOTH),
            new Entry.Debride(
                1391,
                180,
                AreaRef.of("UL posterior"),
                StepAspect.BOTH,
                Pass.IMPLANT_CARE,
                "sleeved for implants",
                Power.LOW,
                false,
                List.of(Tooth.ofIso(26))),
            new Entry.ApplyGel(1571, 60, "pocket gel", AreaRef.of("UL posterior"), StepAspect.BOTH),
            new Entry.Wait(1631, 30, new Awaited.Gel("pocket gel")),
            new Entry.Close(1661, 300)),
        List.of("slim curved right", "sleeved for implants"),
        List.of(
            new WatchSite.OfTooth(
                Tooth.ofIso(46),
                false,
                List.of(
                    new WatchSite.Probed(Aspect.FACIAL, 0, 7),
                    new WatchSite.Probed(Aspect.LINGUAL, 2, null)),
                2,
                0,
                List.of(Feature.SENSITIVE))),
        List.of(new Caution.AsWritten("Diabetes: book a short morning visit after a meal.")));
  }
}

package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.work.StepAspect;

/** Why a course is as it is comes back from its file as it went in. */
class ReasonFileTest {

  @Test
  void everyReasonAndRemedyIsReadBack() throws Exception {
    List<LengthLimit> limits =
        List.of(
            new LengthLimit(LengthLimit.Whose.PRACTICE, null, figure(90)),
            new LengthLimit(LengthLimit.Whose.PATIENT, null, new Figure(60, "the chart")),
            new LengthLimit(LengthLimit.Whose.ALERT, Alert.ANXIOUS, figure(50)));
    List<WhyVisit> why = new ArrayList<>();
    for (WhyVisit.Known known : WhyVisit.Known.values()) {
      why.add(new WhyVisit(1, List.of(2), known));
    }
    why.add(new WhyVisit(1, List.of(2), new WhyVisit.TooLong(120, 50, limits)));
    why.add(new WhyVisit(1, List.of(), new WhyVisit.Tray(9, figure(8))));
    List<Remedy> remedies =
        List.of(
            new Remedy(new Change.Visits(3), 3, 80),
            new Remedy(new Change.LongerVisits(70, 50, limits), 3, 70),
            new Remedy(new Change.LargerTray(9, figure(8)), 3, 80),
            new Remedy(new Change.LessCertainty(0.7, figure(0.8)), 3, 80),
            new Remedy(new Change.AllowAgent("articaine-4-100"), 3, 80),
            new Remedy(new Change.FrontAcrossMidline(), 3, 80),
            new Remedy(new Change.PassesApart(), 3, 80));
    NoteFileTest.assertEveryKind(
        WhyVisit.Because.class, why.stream().map(WhyVisit::because).toList());
    Change noFileHasIt = new Change.WithoutWish(null, Numbering.ISO3950);
    NoteFileTest.assertEveryKind(
        Change.class,
        Stream.concat(remedies.stream().map(Remedy::change), Stream.of(noFileHasIt)).toList());
    Course without =
        SampleCourses.everything()
            .withReasons(
                new Reasons(why, new OneVisitFewer(3, List.of(new Remedy(noFileHasIt, 3, 80)))));
    assertThrows(
        IllegalArgumentException.class,
        () -> PlanWriter.write(without, Numbering.ISO3950, SampleWords.WORDS));
    Course course =
        SampleCourses.everything().withReasons(new Reasons(why, new OneVisitFewer(3, remedies)));
    String text = PlanWriter.write(course, Numbering.ISO3950, SampleWords.WORDS);
    assertEquals(course.reasons(), PlanReader.read("plan.json", text).course().reasons());
  }

  @Test
  void whateverWorkWaitsForIsReadBack() throws Exception {
    List<HeldBack.Reason> reasons =
        List.of(
            new HeldBack.AsWritten("in the words of an old file"),
            new HeldBack.NoWeight(),
            new HeldBack.NoHistory(),
            new HeldBack.NoAgent(
                List.of(
                    new HeldBack.Refused(
                        "lidocaine-2-100",
                        List.of(
                            new Objection.Forbidden(Alert.DIABETES, "epinephrine"),
                            new Objection.TooYoung(12, 11),
                            new Objection.TooYoung(12, null))))),
            new HeldBack.NoAgentServes(List.of("mepivacaine-3"), true),
            new HeldBack.NoAgentServes(List.of("mepivacaine-3"), false),
            new HeldBack.NoInjectionWished(),
            new HeldBack.AwaitsChart(),
            new HeldBack.Follows(new HeldBack.NoHistory()),
            new HeldBack.WholeArea(new HeldBack.NoInjectionWished()));
    NoteFileTest.assertEveryKind(HeldBack.Reason.class, reasons);
    Course course =
        SampleCourses.everything()
            .withHeldBack(
                reasons.stream()
                    .map(
                        reason ->
                            new HeldBack(
                                AreaRef.of("LR posterior"),
                                Pass.FINE,
                                StepAspect.FACIAL,
                                List.of(Tooth.ofIso(46)),
                                reason))
                    .toList());
    String text = PlanWriter.write(course, Numbering.ISO3950, SampleWords.WORDS);
    assertEquals(course.heldBack(), PlanReader.read("plan.json", text).course().heldBack());
  }

  private static Figure figure(double value) {
    return new Figure(value, "assumption", Figure.Basis.ASSUMED);
  }
}

package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Figure;
import quadrille.plan.course.Remedy.Change;

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
    Course course =
        SampleCourses.everything().withReasons(new Reasons(why, new OneVisitFewer(3, remedies)));
    String text = PlanWriter.write(course, Numbering.ISO3950, SampleWords.WORDS);
    assertEquals(course.reasons(), PlanReader.read("plan.json", text).course().reasons());
  }

  private static Figure figure(double value) {
    return new Figure(value, "assumption", Figure.Basis.ASSUMED);
  }
}

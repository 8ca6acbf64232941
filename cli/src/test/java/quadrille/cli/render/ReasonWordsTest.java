package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.course.LengthLimit;
import quadrille.plan.course.LengthLimit.Whose;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Reasons;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WhyVisit;

final class ReasonWordsTest {
  private static final Practice DEFAULTS = PracticeReader.defaults();
  private static final Figure NINETY = new Figure(90, "made up");

  private static LengthLimit limit(Whose whose) {
    return new LengthLimit(whose, null, new Figure(75, "made up"));
  }

  @Test
  void longerVisitsThanAPatientBearsAreNoLeaveToGiveThem() {
    assertEquals(
        "a patient who could sit through visits of up to 80 minutes instead of 75",
        ReasonWords.need(new Change.LongerVisits(80, 75, List.of(limit(Whose.PATIENT))), DEFAULTS));
    assertEquals(
        "a patient who could sit through visits of up to 80 minutes instead of 75, and a practice"
            + " that allows more than 75",
        ReasonWords.need(
            new Change.LongerVisits(80, 75, List.of(limit(Whose.PRACTICE), limit(Whose.PATIENT))),
            DEFAULTS));
    assertEquals(
        "visits of up to 80 minutes instead of 75 (the practice's longest visit)",
        ReasonWords.need(
            new Change.LongerVisits(80, 75, List.of(limit(Whose.PRACTICE))), DEFAULTS));
  }

  /** The same sentence beside each visit hides what is particular. */
  @Test
  void whyIsSaidOnce() {
    Visit visit = SampleCourse.course(List.of()).visits().get(0).withNumbSide(NumbSide.RIGHT);
    WhyVisit.TooLong both =
        new WhyVisit.TooLong(130, 90, List.of(new LengthLimit(Whose.PRACTICE, null, NINETY)));
    Course course =
        SampleCourse.course(List.of())
            .withVisits(
                List.of(
                    visit.withNumber(1),
                    visit.withNumber(2).withNumbSide(NumbSide.LEFT),
                    visit.withNumber(3)))
            .withReasons(
                new Reasons(
                    List.of(
                        new WhyVisit(1, List.of(2), WhyVisit.Known.NUMB_SIDE),
                        new WhyVisit(1, List.of(3), both),
                        new WhyVisit(2, List.of(1, 3), WhyVisit.Known.NUMB_SIDE),
                        new WhyVisit(3, List.of(1), both),
                        new WhyVisit(3, List.of(2), WhyVisit.Known.NUMB_SIDE),
                        new WhyVisit(3, List.of(), WhyVisit.Known.BEGUN_IS_FINISHED)),
                    null));
    assertEquals(
        List.of(
            "Visits 1 and 3 numb the right side, visit 2 the left: one visit numbs one side only.",
            "Visit 1: Together with visit 3 it would have to be booked for 130 minutes, and no visit"
                + " may be longer than 90 (the practice's longest visit).",
            "Visit 3: An area that is begun is finished in the same visit, and that takes a visit"
                + " more."),
        ReasonWords.why(course));
  }
}

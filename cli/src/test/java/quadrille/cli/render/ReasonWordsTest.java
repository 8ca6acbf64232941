package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.LengthLimit;
import quadrille.plan.course.LengthLimit.Whose;
import quadrille.plan.course.Remedy.Change;

final class ReasonWordsTest {
  private static final Practice DEFAULTS = PracticeReader.defaults();

  private static LengthLimit limit(Whose whose) {
    return new LengthLimit(whose, null, new Figure(75, "made up"));
  }

  @Test
  void longerVisitsThanAPatientBearsAreNoLeaveToGiveThem() {
    assertEquals(
        "a patient who could sit through visits of up to 80 minutes instead of 75",
        ReasonWords.need(new Change.LongerVisits(80, 75, List.of(limit(Whose.PATIENT))), DEFAULTS));
    assertEquals(
        "a patient who could sit through visits of up to 80 minutes instead of 75 (the practice's"
            + " longest visit)",
        ReasonWords.need(
            new Change.LongerVisits(80, 75, List.of(limit(Whose.PRACTICE), limit(Whose.PATIENT))),
            DEFAULTS));
    assertEquals(
        "visits of up to 80 minutes instead of 75 (the practice's longest visit)",
        ReasonWords.need(
            new Change.LongerVisits(80, 75, List.of(limit(Whose.PRACTICE))), DEFAULTS));
  }
}

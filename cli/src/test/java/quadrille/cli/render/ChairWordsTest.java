package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.PracticeReader;
import quadrille.treatment.restaging.OrderAtTheChair.Cause;
import quadrille.treatment.restaging.OrderAtTheChair.Outcome;

/** What somebody at the chair reads of another order. */
final class ChairWordsTest {

  @Test
  void aLongerVisitAndOneThatIsNotOnTimeAreSaidWithTheirMinutes() {
    assertEquals(List.of(), ChairWords.cautions(70, 70, 0));
    assertEquals(
        List.of("In this order 80\u00a0minutes would be booked for the visit; 70 are."),
        ChairWords.cautions(80, 70, 0));
    assertEquals(
        List.of(
            "When it was put into this order, the visit ran 12\u00a0minutes behind the plan, by which"
                + " numbness is reckoned here: go by the minutes under Numb."),
        ChairWords.cautions(60, 70, 12));
    assertEquals(
        List.of(
            "When it was put into this order, the visit ran 1\u00a0minute ahead of the plan, by which"
                + " numbness is reckoned here: go by the minutes under Numb."),
        ChairWords.cautions(70, 70, -1));
  }

  @Test
  void eachCauseHasItsOwnWords() {
    assertEquals(
        Cause.values().length,
        Arrays.stream(Cause.values())
            .map(
                cause ->
                    ChairWords.of(
                        new Outcome.NotKnown(cause), Numbering.ISO3950, PracticeReader.defaults()))
            .collect(Collectors.toCollection(TreeSet::new))
            .size());
  }
}

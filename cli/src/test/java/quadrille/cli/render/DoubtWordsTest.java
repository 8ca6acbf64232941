package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Quadrant;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.anaesthesia.Refusal;

final class DoubtWordsTest {

  @Test
  void everyRefusalHasItsWords() {
    Map<Refusal, String> words = new LinkedHashMap<>();
    words.put(
        new Refusal.NoWeight(),
        "the patient's weight is not known, so no maximum dose can be worked out");
    words.put(
        new Refusal.Forbidden(Alert.METHAEMOGLOBINAEMIA_RISK, "prilocaine"),
        "alert methaemoglobinaemia-risk forbids prilocaine");
    words.put(new Refusal.NotOwned("gel"), "the practice has no gel");
    words.put(new Refusal.NoAge(), "the patient's age is not known");
    words.put(new Refusal.TooYoung(18), "the patient is under 18 years");
    words.put(
        new Refusal.TooMuch(new Doses.Share("gel", 5.5, 5, 1.1)),
        "gel at 110 % of its maximum (5.5 of 5.0)");
    words.put(new Refusal.TooMuchTogether(1.2), "the shares add up to 120 % of the maximum");
    words.put(
        new Refusal.TooMuchEpinephrine(0.216, 0.2), "epinephrine 0.2160 mg is over 0.2000 mg");
    words.put(
        new Refusal.TooMuchGel("gel", Quadrant.UR, 1.5, 1),
        "gel in UR: 1.50 cartridges, at most 1.00 a quadrant");
    assertEquals(Refusal.class.getPermittedSubclasses().length, words.size());
    words.forEach((refusal, said) -> assertEquals(said, DoubtWords.refusal(refusal)));
  }
}

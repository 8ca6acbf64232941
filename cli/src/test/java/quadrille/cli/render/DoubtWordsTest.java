package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.anaesthesia.Refusal;

final class DoubtWordsTest {

  @Test
  void everyRefusalHasItsWords() {
    Map<Refusal, String> words = new LinkedHashMap<>();
    words.put(
        new Refusal.ForPatient(new Objection.NoWeight()),
        "the patient's weight is not known, so no maximum dose can be worked out");
    words.put(
        new Refusal.TooMuch(new Doses.Share("gel", 5.5, 5, 1.1)),
        "gel at 110 % of its maximum (5.5 of 5.0)");
    words.put(
        new Refusal.TooMuch(new Doses.Share("lidocaine-2-100", 330, 300, 1.1)),
        "lidocaine 2 % with epinephrine 1:100,000 at 110 % of its maximum (330.0 of 300.0)");
    words.put(new Refusal.TooMuchTogether(1.2), "the shares add up to 120 % of the maximum");
    words.put(
        new Refusal.TooMuchEpinephrine(0.216, 0.2), "epinephrine 0.2160 mg is over 0.2000 mg");
    words.put(
        new Refusal.TooMuchGel("gel", Quadrant.UR, 1.5, 1),
        "gel in UR: 1.50 cartridges, at most 1.00 a quadrant");
    assertEquals(Refusal.class.getPermittedSubclasses().length + 1, words.size());
    words.forEach(
        (refusal, said) ->
            assertEquals(said, DoubtWords.refusal(refusal, PracticeReader.defaults())));
  }

  @Test
  void everyObjectionHasItsWords() {
    Map<Objection, String> words = new LinkedHashMap<>();
    words.put(new Objection.NoHistory(), "nobody has taken the patient's medical history");
    words.put(
        new Objection.NoWeight(),
        "the patient's weight is not known, so no maximum dose can be worked out");
    words.put(
        new Objection.Forbidden(Alert.METHAEMOGLOBINAEMIA_RISK, "prilocaine"),
        "alert methaemoglobinaemia-risk forbids prilocaine");
    words.put(new Objection.NotOwned("gel"), "the practice has no gel");
    words.put(new Objection.TooYoung(18, 17), "the patient is under 18 years");
    words.put(
        new Objection.TooYoung(18, null),
        "the patient's age is not known, and it is not for those under 18 years");
    assertEquals(Objection.class.getPermittedSubclasses().length + 1, words.size());
    words.forEach((objection, said) -> assertEquals(said, DoubtWords.objection(objection)));
  }
}

package quadrille.plan.anaesthesia;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static quadrille.plan.anaesthesia.Practices.agent;
import static quadrille.plan.anaesthesia.Practices.injection;

import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Injection;
import quadrille.plan.work.Target.Kind;

final class NumbnessTest {

  private static final Agent LIDOCAINE = agent("lidocaine-2-100");

  /** Lidocaine: infiltration under 2 minutes (label, read), block 2 to 4 (memory). */
  @Test
  void lidocaineTakes() {
    Injection infiltration = injection("upper infiltration");
    assertEquals(120, Numbness.onsetSeconds(infiltration, LIDOCAINE, Kind.PULP));
    assertEquals(120, Numbness.onsetSeconds(infiltration, LIDOCAINE, Kind.FACIAL));
    assertEquals(
        240, Numbness.onsetSeconds(injection("infraorbital"), LIDOCAINE, Kind.MESIOBUCCAL_ROOT));
  }

  /** Inferior alveolar block in practice: lip 4 to 6 minutes, pulp 10 to 15 (weak). */
  @Test
  void theInferiorAlveolarBlockTakesLonger() {
    Injection block = injection("inferior alveolar");
    int pulp = Numbness.onsetSeconds(block, LIDOCAINE, Kind.PULP);
    int tissue = Numbness.onsetSeconds(block, LIDOCAINE, Kind.LINGUAL);
    assertBetween(10 * 60, 15 * 60, pulp);
    assertBetween(4 * 60, 6 * 60, tissue);
    assertEquals(pulp, Numbness.onsetSeconds(block, LIDOCAINE));
  }

  /** Articaine takes up to 9 minutes (label, read): longer than the block's own tissue onset. */
  @Test
  void theLongerOnsetHolds() {
    Injection block = injection("inferior alveolar");
    assertEquals(540, Numbness.onsetSeconds(block, agent("articaine-4-100"), Kind.LINGUAL));
    assertBetween(600, 900, Numbness.onsetSeconds(block, agent("articaine-4-100"), Kind.PULP));
  }

  @Test
  void anInjectionForSoftTissueAloneWaitsForTissueAlone() {
    assertEquals(240, Numbness.onsetSeconds(injection("long buccal"), LIDOCAINE));
  }

  /**
   * Malamed, Handbook of Local Anesthesia (read in a copy): lidocaine with epinephrine 60 minutes
   * pulpal, 180 to 300 soft tissue; mepivacaine 3 % 5 to 10 pulpal by infiltration, 20 to 40 else.
   */
  @Test
  void pulpLastsByTechniqueAndTissueByAgent() {
    Injection infiltration = injection("upper infiltration");
    Injection block = injection("inferior alveolar");
    assertEquals(3600, Numbness.lastsSeconds(block, LIDOCAINE, Kind.PULP));
    assertEquals(3600, Numbness.lastsSeconds(infiltration, LIDOCAINE, Kind.MESIOBUCCAL_ROOT));
    assertBetween(180 * 60, 300 * 60, Numbness.lastsSeconds(block, LIDOCAINE, Kind.FACIAL));

    Agent plain = agent("mepivacaine-3");
    assertBetween(5 * 60, 10 * 60, Numbness.lastsSeconds(infiltration, plain, Kind.PULP));
    assertBetween(20 * 60, 40 * 60, Numbness.lastsSeconds(block, plain, Kind.PULP));
    assertBetween(90 * 60, 120 * 60, Numbness.lastsSeconds(infiltration, plain, Kind.LINGUAL));
  }

  @Test
  void aTechniqueWithoutFigureIsAnError() {
    Agent bare =
        new Agent(
            "bare",
            LIDOCAINE.words(),
            LIDOCAINE.drug(),
            LIDOCAINE.vasoconstrictor(),
            LIDOCAINE.mgPerMl(),
            LIDOCAINE.epinephrineMgPerMl(),
            LIDOCAINE.cartridgeMl(),
            LIDOCAINE.limits(),
            Map.of(),
            LIDOCAINE.softTissueMinutes(),
            Map.of());
    Injection block = injection("inferior alveolar");
    assertThrows(
        IllegalArgumentException.class, () -> Numbness.onsetSeconds(block, bare, Kind.PULP));
    assertThrows(
        IllegalArgumentException.class, () -> Numbness.lastsSeconds(block, bare, Kind.PULP));
  }

  private static void assertBetween(int least, int most, int seconds) {
    assertEquals(Math.max(least, Math.min(most, seconds)), seconds);
  }
}

package quadrille.plan.anaesthesia;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static quadrille.plan.anaesthesia.Practices.agent;
import static quadrille.plan.anaesthesia.Practices.injection;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
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
    assertEquals(15 * 60, pulp, "the upper end");
    assertEquals(6 * 60, tissue, "the upper end");
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
    assertEquals(240, Numbness.onsetSeconds(injection("greater palatine"), LIDOCAINE));
  }

  /** The one root is pulp too. */
  @Test
  void anInjectionForARootAloneWaitsForItsPulp() {
    Injection block = injection("inferior alveolar").withPulp(List.of());
    assertEquals(6 * 60, Numbness.onsetSeconds(block, LIDOCAINE));
    assertEquals(15 * 60, Numbness.onsetSeconds(block.withMesiobuccalRoot(true), LIDOCAINE));
  }

  /**
   * Malamed, Handbook of Local Anesthesia (read in a copy): lidocaine with epinephrine 60 minutes
   * pulpal, 180 to 300 soft tissue; mepivacaine 3 % 5 to 10 pulpal by infiltration, 20 in the upper
   * jaw and 40 in the lower.
   */
  @Test
  void pulpLastsByTechniqueAndTissueByAgent() {
    PlacedInjection infiltration = placed("upper infiltration", 0);
    PlacedInjection block = placed("inferior alveolar", 0);
    assertEquals(3600, Numbness.lastsSeconds(block, LIDOCAINE, Kind.PULP));
    assertBetween(180 * 60, 300 * 60, Numbness.lastsSeconds(block, LIDOCAINE, Kind.FACIAL));

    Agent plain = agent("mepivacaine-3");
    assertBetween(5 * 60, 10 * 60, Numbness.lastsSeconds(infiltration, plain, Kind.PULP));
    assertEquals(40 * 60, Numbness.lastsSeconds(block, plain, Kind.PULP));
    PlacedInjection upper = placed("posterior superior alveolar", 0);
    assertEquals(20 * 60, Numbness.lastsSeconds(upper, plain, Kind.PULP));
    PlacedInjection mental = placed("mental and incisive", 0);
    assertEquals(20 * 60, Numbness.lastsSeconds(mental, plain, Kind.PULP), "no deep block");
    assertBetween(90 * 60, 120 * 60, Numbness.lastsSeconds(infiltration, plain, Kind.LINGUAL));
  }

  /**
   * 1.2 mL last longer than 0.6 (Brunetto 2008, Anesth Prog 55:29); how long, from memory and by
   * assumption: 20 and 30 minutes. Soft tissue goes by the agent alone.
   */
  @Test
  void aLargerInfiltrationLastsLonger() {
    PlacedInjection small = placed("upper infiltration", 0);
    PlacedInjection large = placed("upper infiltration", 1);
    assertEquals(1200, Numbness.lastsSeconds(small, LIDOCAINE, Kind.PULP));
    assertEquals(1800, Numbness.lastsSeconds(large, LIDOCAINE, Kind.MESIOBUCCAL_ROOT));
    assertEquals(
        Numbness.lastsSeconds(small, LIDOCAINE, Kind.FACIAL),
        Numbness.lastsSeconds(large, LIDOCAINE, Kind.FACIAL));
    // Plain mepivacaine is gone before either.
    assertEquals(300, Numbness.lastsSeconds(large, agent("mepivacaine-3"), Kind.PULP));
  }

  @Test
  void nothingIsWaitedForBeforeTheAgentIsKnown() {
    PlacedInjection block = placed("inferior alveolar", 0);
    assertEquals(15 * 60, Numbness.onsetSeconds(block));
    assertEquals(
        0,
        Numbness.onsetSeconds(
            new PlacedInjection(block.injection(), block.quadrant(), null, 0, null)));
  }

  private static PlacedInjection placed(String name, int volume) {
    Injection kind = injection(name);
    Quadrant quadrant = Quadrant.of(kind.jaw(), Side.RIGHT);
    return new PlacedInjection(
        kind, quadrant, kind.perTooth() ? new Tooth(quadrant, 6) : null, volume, LIDOCAINE);
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
        IllegalArgumentException.class,
        () -> Numbness.lastsSeconds(placed("inferior alveolar", 0), bare, Kind.PULP));
  }

  private static void assertBetween(int least, int most, int seconds) {
    assertEquals(Math.max(least, Math.min(most, seconds)), seconds);
  }
}

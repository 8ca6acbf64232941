package quadrille.plan.anaesthesia;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.anaesthesia.Practices.adult;
import static quadrille.plan.anaesthesia.Practices.agent;
import static quadrille.plan.anaesthesia.Practices.inCartridgesOf;
import static quadrille.plan.anaesthesia.Practices.limited;
import static quadrille.plan.anaesthesia.Practices.patient;
import static quadrille.plan.anaesthesia.Practices.usual;
import static quadrille.plan.anaesthesia.Practices.withGel;
import static quadrille.plan.anaesthesia.Practices.withRuleSet;

import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.RuleSet;
import quadrille.plan.anaesthesia.Doses.Amount;
import quadrille.plan.anaesthesia.Doses.Check;

/** Doses against published worked examples, each with its source beside it. */
final class DosesTest {

  private static final double KG_A_POUND = 0.45359237;
  private static final double EPS = 1e-6;
  private static final Practice LABEL = withRuleSet(usual(), RuleSet.LABEL);
  private static final Practice CONSERVATIVE = withRuleSet(usual(), RuleSet.CONSERVATIVE);

  @Nested
  final class WorkedExamples {

    /** CE course table, citing Malamed (read): 13 cartridges by drug, 11 by epinephrine. */
    @Test
    void lidocaineAt150PoundsIsLimitedByEpinephrine() {
      Agent lidocaine = inCartridgesOf(1.8, agent("lidocaine-2-100"));
      Doses doses = new Doses(LABEL, adult(150 * KG_A_POUND));

      assertEquals(13, doses.cartridgesByDrug(lidocaine));
      assertEquals(468, new Amount(lidocaine, 13 * 1.8).mg(), EPS);
      assertEquals(11, doses.cartridgesByEpinephrine(lidocaine));
      assertEquals(11, doses.cartridges(lidocaine));
      assertEquals(396, new Amount(lidocaine, 19.8).mg(), EPS);
      assertEquals(11, new Amount(lidocaine, 19.8).cartridges());
      assertTrue(doses.check(List.of(new Amount(lidocaine, 19.8))).allowed());
      Check twelve = doses.check(List.of(new Amount(lidocaine, 12 * 1.8)));
      assertEquals(0.216, twelve.epinephrineMg(), EPS);
      assertEquals(
          List.of(new Refusal.TooMuchEpinephrine(twelve.epinephrineMg(), 0.2)), twelve.refusals());
    }

    /** The same table (read): at 2 mg a pound and at most 300 mg, 8 cartridges; drug limits. */
    @Test
    void lidocaineAt2MgAPoundIsLimitedByTheDrug() {
      Agent byPound =
          limited(
              RuleSet.LABEL, 2 / KG_A_POUND, 300.0, inCartridgesOf(1.8, agent("lidocaine-2-100")));
      Doses doses = new Doses(LABEL, adult(150 * KG_A_POUND));

      assertEquals(300, doses.maxMg(byPound), EPS);
      assertEquals(8, doses.cartridges(byPound));
      assertEquals(8, doses.cartridgesByDrug(byPound));
      assertEquals(288, new Amount(byPound, 14.4).mg(), EPS);

      // The conservative rule set writes 2 mg a pound as 4.4 mg/kg: the same cartridges.
      Agent asWritten = inCartridgesOf(1.8, agent("lidocaine-2-100"));
      assertEquals(8, new Doses(CONSERVATIVE, adult(150 * KG_A_POUND)).cartridges(asWritten));
    }

    /** CE course table, citing Malamed (read): 7 cartridges of 1.7 mL, 11.9 mL. */
    @Test
    void articaineAt150Pounds() {
      Agent articaine = inCartridgesOf(1.7, agent("articaine-4-100"));
      Doses doses = new Doses(LABEL, adult(150 * KG_A_POUND));

      assertEquals(7, doses.cartridges(articaine));
      assertTrue(doses.check(List.of(new Amount(articaine, 11.9))).allowed());
      assertFalse(doses.check(List.of(new Amount(articaine, 12.0))).allowed());
    }

    /** Read in a course text: 250 lb at 3.2 mg a pound is 800 mg, 11 cartridges of 1.8 mL. */
    @Test
    void articaineAt250PoundsAnd3Point2MgAPound() {
      Agent byPound =
          limited(
              RuleSet.LABEL, 3.2 / KG_A_POUND, null, inCartridgesOf(1.8, agent("articaine-4-100")));
      Doses doses = new Doses(LABEL, adult(250 * KG_A_POUND));

      assertEquals(800, doses.maxMg(byPound), EPS);
      assertEquals(11, doses.cartridgesByDrug(byPound));
    }

    /** Read: epinephrine alone would let 22 cartridges through (1584 mg); the drug must not. */
    @Test
    void articaineWithLittleEpinephrineIsStoppedByTheDrug() {
      Agent articaine = inCartridgesOf(1.8, agent("articaine-4-200"));
      for (Practice practice : List.of(LABEL, CONSERVATIVE)) {
        Doses doses = new Doses(practice, adult(100));
        assertEquals(22, doses.cartridgesByEpinephrine(articaine));
        Amount amount = new Amount(articaine, 22 * 1.8);
        assertEquals(1584, amount.mg(), EPS);
        Check check = doses.check(List.of(amount));
        assertTrue(check.epinephrineMg() < check.epinephrineCapMg());
        assertEquals(List.of(new Refusal.TooMuch(check.shares().get(0))), check.refusals());
        assertEquals("articaine-4-200", check.shares().get(0).name());
      }
    }

    /** Read: a child of 20 kg, lidocaine by the label, 140 mg = 7 mL = 3.9 cartridges of 1.8 mL. */
    @Test
    void lidocaineAt20Kg() {
      Agent lidocaine = inCartridgesOf(1.8, agent("lidocaine-2-100"));
      Doses doses = new Doses(LABEL, patient(20.0, 8));

      assertEquals(140, doses.maxMg(lidocaine), EPS);
      assertEquals(140, new Amount(lidocaine, 7).mg(), EPS);
      assertEquals(3.9, 7 / lidocaine.cartridgeMl().value(), 0.05);
      assertEquals(3, doses.cartridges(lidocaine));
      assertTrue(doses.check(List.of(new Amount(lidocaine, 7))).allowed());
      assertFalse(doses.check(List.of(new Amount(lidocaine, 7.01))).allowed());
    }

    /**
     * Product label (read): 600 mg = 15 mL = 8 cartridges from 70 kg on, below it 8 mg/kg. At 70 to
     * 75 kg the label's two figures disagree (8 mg/kg x 70 kg is 560 mg); the lower one holds here.
     */
    @Test
    void prilocaine() {
      for (String name : List.of("prilocaine-4", "prilocaine-4-200")) {
        Agent prilocaine = inCartridgesOf(1.8, agent(name));
        Doses heavy = new Doses(LABEL, adult(75));
        assertEquals(600, heavy.maxMg(prilocaine), EPS);
        assertEquals(600, new Amount(prilocaine, 15).mg(), EPS);
        assertEquals(8, heavy.cartridges(prilocaine));
        assertTrue(heavy.check(List.of(new Amount(prilocaine, 15))).allowed());
        assertFalse(heavy.check(List.of(new Amount(prilocaine, 15.1))).allowed());

        assertEquals(8 * 60, new Doses(LABEL, adult(60)).maxMg(prilocaine), EPS);
        assertEquals(560, new Doses(LABEL, adult(70)).maxMg(prilocaine), EPS);
      }
    }

    /** Derived: 90 mg = 10 cartridges of 1.8 mL, whatever the weight by the label. */
    @Test
    void bupivacaine() {
      Agent bupivacaine = inCartridgesOf(1.8, agent("bupivacaine-0.5-200"));
      Doses doses = new Doses(LABEL, adult(50));
      assertEquals(90, doses.maxMg(bupivacaine), EPS);
      assertEquals(10, doses.cartridgesByDrug(bupivacaine));
      assertEquals(10, doses.cartridges(bupivacaine));
      assertTrue(doses.check(List.of(new Amount(bupivacaine, 18))).allowed());
      assertFalse(doses.check(List.of(new Amount(bupivacaine, 18.1))).allowed());
      // Conservative: 1.3 mg/kg.
      assertEquals(65, new Doses(CONSERVATIVE, adult(50)).maxMg(bupivacaine), EPS);
    }

    /**
     * A printed table for 70 kg and 2.2 mL cartridges, conservative (read, corrected): its 7 of
     * lidocaine would be 308 mg, over its own cap of 300 mg, so 6.
     */
    @Test
    void cartridgesOf2Point2MlAt70Kg() {
      Doses doses = new Doses(CONSERVATIVE, adult(70));
      assertEquals(5, doses.cartridgesByDrug(inCartridgesOf(2.2, agent("articaine-4-100"))));
      assertEquals(5, doses.cartridgesByDrug(inCartridgesOf(2.2, agent("articaine-4-200"))));
      assertEquals(4, doses.cartridgesByDrug(inCartridgesOf(2.2, agent("mepivacaine-3"))));
      Agent lidocaine = inCartridgesOf(2.2, agent("lidocaine-2-100"));
      assertEquals(6, doses.cartridgesByDrug(lidocaine));
      assertFalse(doses.check(List.of(new Amount(lidocaine, 7 * 2.2))).allowed());
      assertEquals(308, new Amount(lidocaine, 7 * 2.2).mg(), EPS);
    }

    /** Derived from 0.04 mg a visit (weak): 2 cartridges of 1:100,000, 4 of 1:200,000. */
    @Test
    void heartDisease() {
      Doses doses = new Doses(CONSERVATIVE, adult(80, Alert.HEART_DISEASE));
      Agent strong = inCartridgesOf(1.8, agent("lidocaine-2-100"));
      Agent weak = inCartridgesOf(1.8, agent("articaine-4-200"));

      assertEquals(2, doses.cartridges(strong));
      assertEquals(4, doses.cartridges(weak));
      assertTrue(doses.check(List.of(new Amount(strong, 3.6))).allowed());
      assertFalse(doses.check(List.of(new Amount(strong, 5.4))).allowed());
      assertTrue(doses.check(List.of(new Amount(weak, 7.2))).allowed());
      assertFalse(doses.check(List.of(new Amount(weak, 9.0))).allowed());
      assertTrue(
          new Doses(CONSERVATIVE, adult(80)).check(List.of(new Amount(strong, 5.4))).allowed());
    }
  }

  /**
   * The table of maximum doses and contents: Malamed, Handbook of Local Anesthesia, product labels,
   * and for the conservative column a national reference table (all read in copies).
   */
  @Test
  void maximaAndContentsOfEachAgent() {
    assertAgent("lidocaine-2-100", 7, 500, 4.4, 300, 36, 34);
    assertAgent("articaine-4-100", 7, Double.NaN, 7, 500, 72, 68);
    assertAgent("articaine-4-200", 7, Double.NaN, 7, 500, 72, 68);
    assertAgent("mepivacaine-3", 6.6, 400, 4.4, 300, 54, 51);
    assertAgent("mepivacaine-2-levonordefrin-20", 6.6, 400, 4.4, 300, 36, 34);
    assertAgent("prilocaine-4", 8, 600, 6, 400, 72, 68);
    assertAgent("prilocaine-4-200", 8, 600, 6, 400, 72, 68);
    assertAgent("bupivacaine-0.5-200", Double.NaN, 90, 1.3, 90, 9, 8.5);
  }

  private static void assertAgent(
      String name,
      double labelMgPerKg,
      double labelCap,
      double mgPerKg,
      double cap,
      double mgIn1Point8,
      double mgIn1Point7) {
    Agent agent = agent(name);
    // 20 kg lies under every cap, 400 kg over each; NaN stands for "none" in the table.
    assertMost(labelMgPerKg, labelCap, agent, RuleSet.LABEL);
    assertMost(mgPerKg, cap, agent, RuleSet.CONSERVATIVE);
    assertEquals(mgIn1Point8, new Amount(agent, 1.8).mg(), EPS, name);
    assertEquals(mgIn1Point7, new Amount(agent, 1.7).mg(), EPS, name);
  }

  private static void assertMost(double mgPerKg, double cap, Agent agent, RuleSet ruleSet) {
    double light = Double.isNaN(mgPerKg) ? cap : 20 * mgPerKg;
    double heavy = Double.isNaN(cap) ? 400 * mgPerKg : cap;
    assertEquals(light, Doses.maxMg(agent, ruleSet, 20), EPS, agent.name() + " " + ruleSet);
    assertEquals(heavy, Doses.maxMg(agent, ruleSet, 400), EPS, agent.name() + " " + ruleSet);
  }

  /** From memory: toxicity is additive, so the shares of a mixture may not exceed 1. */
  @Test
  void sharesOfMixedAgentsAdd() {
    Doses doses = new Doses(CONSERVATIVE, adult(100));
    // Half of 300 mg, and half of 300 mg.
    Amount lidocaine = new Amount(agent("lidocaine-2-100"), 7.5);
    Amount mepivacaine = new Amount(agent("mepivacaine-3"), 5);

    Check half = doses.check(List.of(lidocaine, mepivacaine));
    assertEquals(1, half.share(), EPS);
    assertEquals(List.of(0.5, 0.5), half.shares().stream().map(Doses.Share::share).toList());
    assertTrue(half.allowed());
    // 7.5 / 1.8 opens 5, and 5 / 1.8 opens 3.
    assertEquals(8, half.cartridges());

    Check more = doses.check(List.of(lidocaine, new Amount(agent("mepivacaine-3"), 6)));
    assertEquals(List.of(new Refusal.TooMuchTogether(more.share())), more.refusals());
    assertEquals(1.1, more.share(), EPS);
  }

  /**
   * A maximum is what may be given: 0.2 mg of epinephrine in 20 mL of 1:100,000, not a drop more.
   */
  @Test
  void aDoseExactlyAtACapMayBeGiven() {
    Doses doses = new Doses(LABEL, adult(100));
    Agent lidocaine = inCartridgesOf(2, agent("lidocaine-2-100"));
    Check atTheCap = doses.check(List.of(new Amount(lidocaine, 20)));
    assertEquals(0.2, atTheCap.epinephrineMg(), EPS);
    assertTrue(atTheCap.allowed());
    assertFalse(doses.check(List.of(new Amount(lidocaine, 20.001))).allowed());
    assertEquals(10, doses.cartridgesByEpinephrine(lidocaine));
    // 500 mg by the label: 12.5 cartridges of 40 mg.
    assertEquals(12, doses.cartridgesByDrug(lidocaine));
    assertEquals(Integer.MAX_VALUE, doses.cartridgesByEpinephrine(agent("mepivacaine-3")));
  }

  /** No share of an unknown maximum is reckoned: the missing weight is said, and nothing else. */
  @Test
  void withoutAWeightOnlyThatIsSaid() {
    Doses doses = new Doses(CONSERVATIVE, patient(null, 40));
    List<Amount> two =
        List.of(new Amount(agent("lidocaine-2-100"), 1), new Amount(agent("mepivacaine-3"), 1));
    assertEquals(
        List.of(new Refusal.ForPatient(new Objection.NoWeight())), doses.check(two).refusals());
  }

  @Test
  void amountsOfOneAgentAreOneDose() {
    Doses doses = new Doses(CONSERVATIVE, adult(100));
    Agent lidocaine = agent("lidocaine-2-100");
    Check check = doses.check(List.of(new Amount(lidocaine, 1.5), new Amount(lidocaine, 0.3)));
    assertEquals(1, check.shares().size());
    assertEquals(36, check.shares().get(0).given(), EPS);
    assertEquals(1, check.cartridges());
  }

  @Test
  void whatWasGivenEarlierThatDayCounts() {
    Doses doses = new Doses(CONSERVATIVE, adult(100));
    Amount amount = new Amount(agent("lidocaine-2-100"), 9);
    assertTrue(doses.check(List.of(amount)).allowed());

    Check again = doses.check(List.of(amount), new TreeMap<>(), List.of(amount));
    assertEquals(360, again.shares().get(0).given(), EPS);
    assertEquals(1.2, again.share(), EPS);
    assertEquals(0.18, again.epinephrineMg(), EPS);
    assertFalse(again.allowed());
    assertEquals(5, again.cartridges(), "only the visit's own cartridges are opened");
  }

  /** A dose of nothing is a dose, and refused only where the agent itself is. */
  @Test
  void nothingGivenIsNothing() {
    Check check = new Doses(CONSERVATIVE, patient(null, 40)).check(List.of());
    assertTrue(check.allowed());
    assertEquals(0, check.share());
    assertEquals(0, check.cartridges());
  }

  @Test
  void unknownWeightIsNeverGuessed() {
    Patient unknown = patient(null, 40);
    Doses doses = new Doses(withGel(CONSERVATIVE), unknown);
    Agent lidocaine = agent("lidocaine-2-100");

    assertThrows(IllegalStateException.class, () -> doses.maxMg(lidocaine));
    assertThrows(IllegalStateException.class, () -> doses.cartridges(lidocaine));
    Check check = doses.check(List.of(new Amount(lidocaine, 0.1)));
    assertEquals(List.of(new Refusal.ForPatient(new Objection.NoWeight())), check.refusals());
    assertFalse(doses.check(List.of(), gel(Quadrant.UR, 0.5), List.of()).allowed());
    assertThrows(
        IllegalArgumentException.class, () -> Doses.maxMg(lidocaine, RuleSet.LABEL, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> Doses.maxMg(lidocaine, RuleSet.LABEL, 0));
  }

  @Test
  void anAgentWithoutMaximumIsAnError() {
    Agent limitless = limited(RuleSet.LABEL, null, null, agent("articaine-4-100"));
    assertThrows(IllegalArgumentException.class, () -> Doses.maxMg(limitless, RuleSet.LABEL, 70));
  }

  @Test
  void aVolumeBelowZeroIsAnError() {
    assertThrows(IllegalArgumentException.class, () -> new Amount(agent("lidocaine-2-100"), -0.1));
    assertThrows(
        IllegalArgumentException.class, () -> new Amount(agent("lidocaine-2-100"), Double.NaN));
    assertThrows(
        IllegalArgumentException.class,
        () -> new Amount(agent("lidocaine-2-100"), Double.POSITIVE_INFINITY));
    assertEquals(0, new Amount(agent("lidocaine-2-100"), 0).cartridges());
  }

  @Nested
  final class PocketGel {

    private final Doses doses = new Doses(withGel(CONSERVATIVE), adult(70));

    /** Product label (read): at most 1 cartridge a quadrant and 5 a session. */
    @Test
    void oneCartridgeAQuadrant() {
      assertTrue(doses.check(List.of(), gel(Quadrant.UR, 1), List.of()).allowed());
      Check over = doses.check(List.of(), gel(Quadrant.UR, 1.5), List.of());
      String name = CONSERVATIVE.gel().name();
      assertEquals(List.of(new Refusal.TooMuchGel(name, Quadrant.UR, 1.5, 1)), over.refusals());
    }

    @Test
    void noGelIsNothingAndLessThanNoneAnError() {
      Check none = doses.check(List.of(), gel(Quadrant.UR, 0), List.of());
      assertTrue(none.allowed());
      assertEquals(List.of(), none.shares());
      assertThrows(
          IllegalArgumentException.class,
          () -> doses.check(List.of(), gel(Quadrant.UR, -0.5), List.of()));
    }

    /** Product label (read): four quadrants of one cartridge stay under the five of a session. */
    @Test
    void fourQuadrantsAreFourFifths() {
      SortedMap<Quadrant, Double> everywhere = new TreeMap<>();
      for (Quadrant quadrant : Quadrant.values()) {
        everywhere.put(quadrant, 1.0);
      }
      Check check = doses.check(List.of(), everywhere, List.of());
      assertEquals(0.8, check.share(), EPS);
      assertTrue(check.allowed());

      everywhere.put(Quadrant.UR, 2.5);
      assertTrue(
          doses.check(List.of(), everywhere, List.of()).refusals().stream()
              .anyMatch(
                  refusal ->
                      refusal instanceof Refusal.TooMuch over
                          && Math.abs(over.of().share() - 1.1) < EPS));
    }

    @Test
    void gelAndInjectionShareOneMaximum() {
      // 240 of 300 mg is a share of 0.8, two of five cartridges 0.4.
      Amount lidocaine = new Amount(agent("mepivacaine-3"), 8);
      SortedMap<Quadrant, Double> two = gel(Quadrant.UR, 1);
      two.put(Quadrant.LR, 1.0);
      Check check = doses.check(List.of(lidocaine), two, List.of());
      assertEquals(1.2, check.share(), EPS);
      assertEquals(List.of(new Refusal.TooMuchTogether(check.share())), check.refusals());
    }

    /** Product label (read): adults only; not where methaemoglobinaemia threatens. */
    @Test
    void forAdultsOfKnownAgeOnly() {
      Practice practice = withGel(CONSERVATIVE);
      assertTrue(gelObjections(practice, patient(60.0, 18)).isEmpty());
      assertEquals(
          List.of(new Objection.TooYoung(18, 17)), gelObjections(practice, patient(60.0, 17)));
      assertEquals(
          List.of(new Objection.TooYoung(18, null)), gelObjections(practice, patient(60.0, null)));
      assertFalse(gelObjections(practice, adult(60, Alert.METHAEMOGLOBINAEMIA_RISK)).isEmpty());
      assertEquals(1, gelObjections(CONSERVATIVE, adult(60)).size(), "not owned by default");
    }
  }

  private static SortedMap<Quadrant, Double> gel(Quadrant quadrant, double cartridges) {
    SortedMap<Quadrant, Double> gel = new TreeMap<>();
    gel.put(quadrant, cartridges);
    return gel;
  }

  private static List<Objection> gelObjections(Practice practice, Patient patient) {
    return PatientRules.of(practice, patient).gelObjections();
  }
}

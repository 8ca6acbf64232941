package quadrille.plan.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.InsertClass;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.facts.practice.SelectionRule;
import quadrille.facts.practice.Shank;
import quadrille.plan.work.Unworkable.Obstacle;

final class InsertSelectionTest {

  private static final Practice PRACTICE = PracticeReader.defaults();

  private static Area area(Quadrant quadrant, boolean posterior) {
    return new Area(
        AreaRef.whole(quadrant, posterior ? Half.POSTERIOR : Half.ANTERIOR),
        List.of(new Tooth(quadrant, posterior ? 6 : 2)));
  }

  private static List<StepAspect> aspects(Pass pass) {
    return pass == Pass.GROSS || pass == Pass.FINE
        ? List.of(StepAspect.FACIAL, StepAspect.LINGUAL)
        : List.of(StepAspect.BOTH);
  }

  /** One tooth swept alone, and what was chosen for it. */
  private record Combination(
      Area area, Pass pass, StepAspect aspect, ToothChart tooth, InsertSelection.Selection chosen) {

    InsertSelection.Choice choice() {
      return chosen.choices().get(0);
    }
  }

  /** Every pass, area, aspect, deposit, depth, furcation, and no, one, or every feature. */
  private static List<Combination> combinations() {
    return combinations(false);
  }

  private static List<Combination> combinations(boolean byHand) {
    InsertSelection selection = new InsertSelection(PRACTICE, byHand);
    List<Set<Feature>> features = new ArrayList<>();
    features.add(Set.of());
    features.add(EnumSet.allOf(Feature.class));
    for (Feature feature : Feature.values()) {
      features.add(EnumSet.of(feature));
    }
    List<Integer> depths = new ArrayList<>(List.of(0, 1, 2, 3, 4, 5, 6, 7, 8, 12, 20));
    depths.add(null);
    List<Combination> all = new ArrayList<>();
    for (Pass pass : Pass.values()) {
      for (Quadrant quadrant : Quadrant.values()) {
        for (boolean posterior : new boolean[] {true, false}) {
          Area area = area(quadrant, posterior);
          for (Deposit deposit : Deposit.values()) {
            for (Integer depth : depths) {
              for (int furcation = 0; furcation <= 3; furcation++) {
                for (Set<Feature> some : features) {
                  ToothChart tooth =
                      new ToothChart(
                          area.teeth().get(0),
                          pass == Pass.IMPLANT_CARE ? ToothStatus.IMPLANT : ToothStatus.NATURAL,
                          deposit,
                          furcation,
                          0,
                          some,
                          Teeth.depths(depth),
                          Teeth.depths(depth));
                  for (StepAspect aspect : aspects(pass)) {
                    all.add(
                        new Combination(
                            area,
                            pass,
                            aspect,
                            tooth,
                            selection.choose(area, pass, aspect, List.of(tooth))));
                  }
                }
              }
            }
          }
        }
      }
    }
    return all;
  }

  @Test
  void everyCombinationHasAnAllowedInsert() {
    List<Combination> all = combinations();
    assertEquals((2 + 2 + 1 + 1) * 8 * 4 * 12 * 4 * 9, all.size());
    for (Combination one : all) {
      assertTrue(one.chosen().unworkable().isEmpty(), one::toString);
      assertEquals(1, one.chosen().choices().size(), one::toString);
      assertTrue(one.choice().insert().passes().contains(one.pass()), one::toString);
      assertTrue(
          one.choice().insert().powers().contains(one.choice().rule().power()), one::toString);
    }
  }

  /**
   * Common practice: an implant takes a sleeved insert at low power only, never the metal alone.
   */
  @Test
  void theSleeveMeetsImplantsOnlyAndAtLowPower() {
    for (Combination one : combinations()) {
      boolean implant = one.pass() == Pass.IMPLANT_CARE;
      assertEquals(implant, one.choice().insert().insertClass() == InsertClass.SLEEVED);
      if (implant) {
        assertEquals(Power.LOW, one.choice().rule().power());
      }
    }
  }

  /** By hand no unit runs, and an implant still meets what does not scratch it alone. */
  @Test
  void everyCombinationCanBeDoneByHand() {
    for (Combination one : combinations(true)) {
      assertTrue(one.chosen().unworkable().isEmpty(), one::toString);
      assertEquals(
          one.pass() == Pass.IMPLANT_CARE ? InsertClass.HAND_IMPLANT : InsertClass.HAND,
          one.choice().insert().insertClass(),
          one::toString);
      assertEquals(Power.NONE, one.choice().rule().power());
    }
  }

  /** Review article on insert selection: standard and broad for the gross pass, slim after it. */
  @Test
  void theClassFollowsThePass() {
    for (Combination one : combinations()) {
      InsertClass chosen = one.choice().insert().insertClass();
      switch (one.pass()) {
        case GROSS ->
            assertTrue(
                chosen == InsertClass.STANDARD || chosen == InsertClass.BROAD, one::toString);
        case FINE -> assertEquals(InsertClass.SLIM, chosen, one::toString);
        case FINISHING -> assertEquals(InsertClass.FINEST, chosen, one::toString);
        case IMPLANT_CARE -> assertEquals(InsertClass.SLEEVED, chosen, one::toString);
      }
    }
  }

  /** Review article: slim inserts at low to medium power. */
  @Test
  void slimInsertsNeverRunAtHighPower() {
    for (Combination one : combinations()) {
      if (one.choice().insert().insertClass() == InsertClass.SLIM) {
        assertNotEquals(Power.HIGH, one.choice().rule().power());
      }
    }
  }

  /**
   * Common practice and review article: curved inserts in posterior pockets deeper than 4 mm and in
   * furcations; one curve serves the facial side of a posterior quadrant, the other the lingual.
   */
  @Test
  void deepPosteriorPocketsAndFurcationsTakeACurveForEachSide() {
    InsertSelection selection = new InsertSelection(PRACTICE);
    for (Quadrant quadrant : Quadrant.values()) {
      Area area = area(quadrant, true);
      for (ToothChart tooth :
          List.of(
              Teeth.even(area.teeth().get(0).iso(), Deposit.LIGHT, 5),
              Teeth.withFurcation(Teeth.even(area.teeth().get(0).iso(), Deposit.LIGHT, 4), 1))) {
        Shank facial = shank(selection, area, StepAspect.FACIAL, tooth);
        Shank lingual = shank(selection, area, StepAspect.LINGUAL, tooth);
        assertEquals(
            EnumSet.of(Shank.CURVED_RIGHT, Shank.CURVED_LEFT), EnumSet.of(facial, lingual));
      }
      ToothChart shallow = Teeth.even(area.teeth().get(0).iso(), Deposit.LIGHT, 4);
      assertEquals(Shank.STRAIGHT, shank(selection, area, StepAspect.FACIAL, shallow));
    }
  }

  private static Shank shank(
      InsertSelection selection, Area area, StepAspect aspect, ToothChart tooth) {
    return selection
        .choose(area, Pass.FINE, aspect, List.of(tooth))
        .choices()
        .get(0)
        .insert()
        .shank();
  }

  /** Common practice: the broad flat insert for a bridge on the lower anterior lingual. */
  @Test
  void onlyTheTeethOfABridgeTakeTheBroadInsert() {
    ToothChart bridge = Teeth.even(41, Deposit.HEAVY, 3, Feature.CALCULUS_BRIDGE);
    ToothChart plain = Teeth.even(42, Deposit.HEAVY, 3);
    Area area = new Area(AreaRef.of("LR anterior"), List.of(bridge.tooth(), plain.tooth()));
    InsertSelection selection = new InsertSelection(PRACTICE);
    List<InsertSelection.Choice> lingual =
        selection.choose(area, Pass.GROSS, StepAspect.LINGUAL, List.of(bridge, plain)).choices();
    assertEquals(
        List.of("broad flat", "standard straight"),
        lingual.stream().map(choice -> choice.insert().name()).toList());
    assertEquals(List.of(bridge), lingual.get(0).teeth());
    assertEquals(List.of(plain), lingual.get(1).teeth());
    assertEquals(
        List.of("standard straight"),
        selection
            .choose(area, Pass.GROSS, StepAspect.FACIAL, List.of(bridge, plain))
            .choices()
            .stream()
            .map(choice -> choice.insert().name())
            .toList());
  }

  @Test
  void anAreaRowReadsTheWorstOfTheWholeSweep() {
    ToothChart deep = Teeth.tooth(16, Deposit.LIGHT, AspectReading.even(6), AspectReading.even(3));
    ToothChart shallow = Teeth.even(15, Deposit.LIGHT, 3);
    Area area = new Area(AreaRef.of("UR posterior"), List.of(deep.tooth(), shallow.tooth()));
    InsertSelection selection = new InsertSelection(PRACTICE);
    List<InsertSelection.Choice> facial =
        selection.choose(area, Pass.FINE, StepAspect.FACIAL, List.of(shallow, deep)).choices();
    assertEquals(1, facial.size());
    assertEquals("slim curved right", facial.get(0).insert().name());
    assertEquals("fine, deep, posterior, facial of UR and LL", facial.get(0).rule().name());
    assertEquals(2, facial.get(0).teeth().size());
    assertEquals(
        "slim straight",
        selection
            .choose(area, Pass.FINE, StepAspect.LINGUAL, List.of(shallow, deep))
            .choices()
            .get(0)
            .insert()
            .name());
  }

  @Test
  void noRowOfTheTableIsIdleAndNoInsertUnused() {
    TreeSet<String> rules = new TreeSet<>();
    TreeSet<String> inserts = new TreeSet<>();
    List<Combination> all = new ArrayList<>(combinations());
    all.addAll(combinations(true));
    for (Combination one : all) {
      rules.add(one.choice().rule().name());
      inserts.add(one.choice().insert().name());
    }
    assertEquals(
        new TreeSet<>(PRACTICE.selection().stream().map(SelectionRule::name).toList()), rules);
    assertEquals(new TreeSet<>(PRACTICE.inserts().keySet()), inserts);
  }

  @Test
  void theNextNameOfARowServesWhereTheFirstIsNotOwned() throws InvalidDocumentException {
    Practice practice = without("standard bent for line angles");
    ToothChart heavy = Teeth.even(16, Deposit.HEAVY, 3);
    InsertSelection.Choice choice =
        new InsertSelection(practice)
            .choose(area(Quadrant.UR, true), Pass.GROSS, StepAspect.FACIAL, List.of(heavy))
            .choices()
            .get(0);
    assertEquals("standard bent", choice.insert().name());
    assertEquals("gross, heavy, posterior", choice.rule().name());
  }

  @Test
  void withoutAnInsertThereIsNoSilentSubstitute() throws InvalidDocumentException {
    InsertSelection.Selection chosen =
        new InsertSelection(without("slim curved left"))
            .choose(
                area(Quadrant.UR, true),
                Pass.FINE,
                StepAspect.LINGUAL,
                List.of(Teeth.even(16, Deposit.LIGHT, 6)));
    assertTrue(chosen.choices().isEmpty());
    Unworkable one = chosen.unworkable().get(0);
    assertEquals(List.of(Tooth.ofIso(16)), one.teeth());
    Unworkable.NoInsert why = assertInstanceOf(Unworkable.NoInsert.class, one.why());
    assertEquals("fine, deep, posterior, lingual of UR and LL", why.rule().name());
    assertEquals(
        List.of(new Unworkable.Unusable("slim curved left", Obstacle.NOT_OWNED)), why.unusable());
    assertFalse(why.powerTooHigh());
  }

  @Test
  void aTableWithoutARowForThePassSaysSo() throws InvalidDocumentException {
    Practice practice =
        PracticeReader.read(
            "practice.json",
            """
            { "schema": "quadrille/practice/1", "selection": [
              { "name": "fine only", "scope": "area", "pass": "fine", "use": ["slim straight"],
                "power": "low", "because": "a test" } ] }
            """);
    InsertSelection.Selection chosen =
        new InsertSelection(practice)
            .choose(
                area(Quadrant.LL, false),
                Pass.GROSS,
                StepAspect.FACIAL,
                List.of(Teeth.even(32, Deposit.HEAVY, 3)));
    assertEquals(
        List.of(
            new Unworkable(
                area(Quadrant.LL, false),
                Pass.GROSS,
                StepAspect.FACIAL,
                List.of(Tooth.ofIso(32)),
                new Unworkable.NoRow())),
        chosen.unworkable());
  }

  /** The reader refuses such a practice; a program that builds one must not get past either. */
  @Test
  void whateverTheTableSaysMetalMeetsNoImplantAndASleeveNoTooth() {
    Unworkable.NoInsert metal = forced("metal", InsertClass.SLIM, Pass.IMPLANT_CARE, Power.LOW);
    assertEquals(List.of(new Unworkable.Unusable("metal", Obstacle.BARE_METAL)), metal.unusable());
    Unworkable.NoInsert power =
        forced("sleeve", InsertClass.SLEEVED, Pass.IMPLANT_CARE, Power.MEDIUM);
    assertTrue(power.powerTooHigh());
    assertEquals(List.of(), power.unusable());
    Unworkable.NoInsert sleeve = forced("sleeve", InsertClass.SLEEVED, Pass.FINISHING, Power.LOW);
    assertEquals(
        List.of(new Unworkable.Unusable("sleeve", Obstacle.FOR_IMPLANTS_ONLY)), sleeve.unusable());
  }

  /** What becomes of a tooth whose only row names one insert, built without the reader's checks. */
  private static Unworkable.NoInsert forced(
      String name, InsertClass insertClass, Pass pass, Power power) {
    Insert insert =
        new Insert(
            name,
            insertClass,
            Shank.STRAIGHT,
            EnumSet.allOf(Pass.class),
            EnumSet.allOf(Power.class),
            1,
            "a test");
    SelectionRule rule =
        new SelectionRule(
            "wrong",
            SelectionRule.Scope.AREA,
            pass,
            new SelectionRule.When(Set.of(), null, Set.of(), Set.of(), null, null, null, Set.of()),
            List.of(name),
            power,
            "a test",
            "a test");
    Practice practice =
        new Practice(
            "forced",
            PRACTICE.contact(),
            PRACTICE.appointments(),
            Map.of(name, insert),
            PRACTICE.passes(),
            List.of(rule),
            PRACTICE.minutes(),
            PRACTICE.frame(),
            PRACTICE.numbing(),
            PRACTICE.agents(),
            PRACTICE.preferredAgents(),
            PRACTICE.ruleSet(),
            PRACTICE.epinephrineCapMg(),
            PRACTICE.injections(),
            PRACTICE.gel(),
            PRACTICE.alerts(),
            PRACTICE.weights(),
            PRACTICE.codeHint());
    ToothChart tooth =
        pass == Pass.IMPLANT_CARE
            ? Teeth.implant(16, Deposit.LIGHT, 3, 3)
            : Teeth.even(16, Deposit.LIGHT, 7);
    InsertSelection.Selection chosen =
        new InsertSelection(practice)
            .choose(area(Quadrant.UR, true), pass, StepAspect.BOTH, List.of(tooth));
    assertTrue(chosen.choices().isEmpty());
    return assertInstanceOf(Unworkable.NoInsert.class, chosen.unworkable().get(0).why());
  }

  private static Practice without(String insert) throws InvalidDocumentException {
    return PracticeReader.read(
        "practice.json",
        "{ \"schema\": \"quadrille/practice/1\", \"inserts\": { \"" + insert + "\": null } }");
  }
}

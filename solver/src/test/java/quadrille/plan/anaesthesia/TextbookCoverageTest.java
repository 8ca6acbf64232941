package quadrille.plan.anaesthesia;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.anaesthesia.Practices.injection;
import static quadrille.plan.anaesthesia.Practices.usual;

import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Injection;
import quadrille.plan.work.Target;
import quadrille.plan.work.Target.Kind;

/**
 * The default practice's injections against the textbook table of what each numbs and how much is
 * given: textbook values (weak, in agreement with Malamed, Handbook of Local Anesthesia); the
 * infraorbital's and the anterior middle superior alveolar's are from memory. Both ways: what is
 * not in the table is not numbed.
 */
final class TextbookCoverageTest {

  /**
   * A row of the table. Positions are ranges from the midline, such as {@code 4-8}, or empty.
   *
   * @param root whether the mesiobuccal root of the upper first molar is numbed
   * @param across whether the other side of the midline is numbed too
   */
  private record Row(
      String name,
      Jaw jaw,
      String pulp,
      boolean root,
      String facial,
      String lingual,
      boolean across,
      double leastMl,
      double mostMl) {}

  static final List<Row> TABLE =
      List.of(
          // All lower teeth to the midline, lingual side, lip; not the buccal gingiva of molars.
          row("inferior alveolar", Jaw.LOWER, "1-8", false, "1-5", "1-8", 1.5, 1.5),
          row("long buccal", Jaw.LOWER, "", false, "6-8", "", 0.3, 0.3),
          // Premolars to the midline, facial side; no lingual tissue.
          row("mental and incisive", Jaw.LOWER, "1-5", false, "1-5", "", 0.6, 0.6),
          // Upper molars; the mesiobuccal root of the first is spared in about 28 %.
          row("posterior superior alveolar", Jaw.UPPER, "6-8", false, "6-8", "", 0.9, 1.8),
          row("middle superior alveolar", Jaw.UPPER, "4-5", true, "4-5", "", 0.6, 0.9),
          row("anterior superior alveolar", Jaw.UPPER, "1-3", false, "1-3", "", 0.6, 0.9),
          // Both of the last two.
          row("infraorbital", Jaw.UPPER, "1-5", true, "1-5", "", 0.9, 1.2),
          // The table says molar to canine; the canine is left out here, to be on the safe side.
          row("greater palatine", Jaw.UPPER, "", false, "", "4-8", 0.4, 0.6),
          // Palate, canine to canine, both sides.
          new Row("nasopalatine", Jaw.UPPER, "", false, "", "1-3", true, 0.45, 0.45),
          // Central to second premolar, palate and facial gingiva by the textbook; but dependable
          // is the palate alone (Velasco and Soto 2012, Dent Res J 9:535: pulps 17 to 66 %; Ahad
          // 2019, J Dent Anesth Pain Med 19(1): facial side not).
          row("anterior middle superior alveolar", Jaw.UPPER, "", false, "", "1-5", 1.4, 1.8));

  private static Row row(
      String name,
      Jaw jaw,
      String pulp,
      boolean root,
      String facial,
      String lingual,
      double leastMl,
      double mostMl) {
    return new Row(name, jaw, pulp, root, facial, lingual, false, leastMl, mostMl);
  }

  @ParameterizedTest
  @FieldSource("TABLE")
  void numbsWhatTheTableSaysAndNothingElse(Row row) {
    for (Side side : Side.values()) {
      Quadrant quadrant = Quadrant.of(row.jaw(), side);
      SortedSet<Target> expected = new TreeSet<>(expected(row, quadrant));
      if (row.across()) {
        Side across = side == Side.RIGHT ? Side.LEFT : Side.RIGHT;
        expected.addAll(expected(row, Quadrant.of(row.jaw(), across)));
      }
      PlacedInjection placed = new PlacedInjection(injection(row.name()), quadrant, null);
      assertEquals(expected, numbed(placed), row.name() + " in " + quadrant);
    }
  }

  @ParameterizedTest
  @FieldSource("TABLE")
  void volumeLiesInTheTablesRange(Row row) {
    double ml = injection(row.name()).ml().value();
    assertTrue(ml >= row.leastMl() && ml <= row.mostMl(), row.name() + " " + ml);
  }

  /** Each tooth: that tooth, upper jaw and lower incisors, facial side, 0.6 mL. */
  @Test
  void infiltrationNumbsItsToothAndItsFacialSideOnly() {
    for (Quadrant quadrant : Quadrant.values()) {
      boolean upper = quadrant.jaw() == Jaw.UPPER;
      Injection infiltration =
          injection(upper ? "upper infiltration" : "lower incisor infiltration");
      assertEquals(0.6, infiltration.ml().value());
      for (int position = 1; position <= (upper ? 8 : 2); position++) {
        Tooth tooth = new Tooth(quadrant, position);
        SortedSet<Target> expected = new TreeSet<>();
        expected.add(new Target(tooth, Kind.PULP));
        expected.add(new Target(tooth, Kind.FACIAL));
        if (upper && position == 6) {
          expected.add(new Target(tooth, Kind.MESIOBUCCAL_ROOT));
        }
        assertEquals(expected, numbed(new PlacedInjection(infiltration, quadrant, tooth)));
      }
    }
  }

  /**
   * Canines and premolars of the lower jaw cannot be infiltrated; a molar's buccal infiltration
   * does not dependably reach its pulp (Kanaa 2006, J Endod 32:296: articaine 64.5, lidocaine 38.7
   * %).
   */
  @Test
  void noInfiltrationReachesTheLowerPulpsBehindTheIncisors() {
    for (Injection injection : usual().injections().values()) {
      if (injection.jaw() == Jaw.LOWER && injection.perTooth()) {
        for (int position = 3; position <= 8; position++) {
          if (PlacedInjection.givenAt(injection, position)) {
            Tooth tooth = new Tooth(Quadrant.LR, position);
            for (Agent agent : usual().agents().values()) {
              PlacedInjection placed = new PlacedInjection(injection, Quadrant.LR, tooth, 0, agent);
              assertFalse(placed.numbs(new Target(tooth, Kind.PULP)), placed.words());
              assertTrue(placed.numbs(new Target(tooth, Kind.FACIAL)), placed.words());
            }
          }
        }
      }
    }
  }

  /**
   * Lower incisors: labial lidocaine reaches the lateral in 43 to 50 % (Yonchak 2001, Anesth Prog
   * 48:55), articaine in 74, with lingual in 97 % (J Endod 2023).
   */
  @Test
  void onlyArticaineReachesTheLowerIncisorsByInfiltration() {
    Tooth tooth = Tooth.ofIso(42);
    for (Agent agent : usual().agents().values()) {
      PlacedInjection placed =
          new PlacedInjection(
              injection("lower incisor infiltration"), Quadrant.LR, tooth, 0, agent);
      assertEquals(
          agent.drug().equals("articaine"),
          placed.numbs(new Target(tooth, Kind.PULP)),
          agent.name());
      assertTrue(placed.numbs(new Target(tooth, Kind.FACIAL)), agent.name());
    }
  }

  @Test
  void palateAndLingualSideOfATooth() {
    for (String name : List.of("palatal infiltration", "lower incisor lingual infiltration")) {
      Injection kind = injection(name);
      Quadrant quadrant = Quadrant.of(kind.jaw(), Side.LEFT);
      Tooth tooth = new Tooth(quadrant, 2);
      assertEquals(
          new TreeSet<>(List.of(new Target(tooth, Kind.LINGUAL))),
          numbed(new PlacedInjection(kind, quadrant, tooth)));
    }
  }

  @Test
  void theTableIsComplete() {
    assertEquals(
        Stream.concat(
                TABLE.stream().map(Row::name),
                Stream.of(
                    "upper infiltration",
                    "palatal infiltration",
                    "lower incisor infiltration",
                    "lower incisor lingual infiltration",
                    "lower molar infiltration"))
            .sorted()
            .toList(),
        usual().injections().keySet().stream().sorted().toList());
  }

  /** The traps of the table, one by one. */
  @Test
  void theTraps() {
    PlacedInjection alveolar =
        new PlacedInjection(injection("inferior alveolar"), Quadrant.LR, null);
    assertFalse(alveolar.numbs(new Target(Tooth.ofIso(46), Kind.FACIAL)));
    assertTrue(alveolar.numbs(new Target(Tooth.ofIso(46), Kind.LINGUAL)));
    assertTrue(alveolar.numbs(new Target(Tooth.ofIso(41), Kind.PULP)));
    assertFalse(alveolar.numbs(new Target(Tooth.ofIso(31), Kind.PULP)), "not over the midline");

    PlacedInjection posterior =
        new PlacedInjection(injection("posterior superior alveolar"), Quadrant.UL, null);
    assertTrue(posterior.numbs(new Target(Tooth.ofIso(26), Kind.PULP)));
    assertFalse(posterior.numbs(new Target(Tooth.ofIso(26), Kind.MESIOBUCCAL_ROOT)));

    PlacedInjection nasopalatine =
        new PlacedInjection(injection("nasopalatine"), Quadrant.UR, null);
    assertTrue(nasopalatine.numbs(new Target(Tooth.ofIso(23), Kind.LINGUAL)));
    assertFalse(nasopalatine.numbs(new Target(Tooth.ofIso(24), Kind.LINGUAL)));
    assertFalse(nasopalatine.numbs(new Target(Tooth.ofIso(11), Kind.PULP)));
  }

  /**
   * Derived from the table: block and buccal 1.8 mL; an upper quadrant by all five 2.95 to 4.65;
   * one side 4.75 to 6.45. So one side at 1:100,000 is 0.048 to 0.065 mg of epinephrine, over the
   * cap of 0.04 mg with heart disease; 1:200,000 passes.
   */
  @Test
  void derivedVolumes() {
    double lower = ml("inferior alveolar", "long buccal");
    double upper =
        ml(
            "posterior superior alveolar",
            "middle superior alveolar",
            "anterior superior alveolar",
            "greater palatine",
            "nasopalatine");
    assertEquals(1.8, lower, 1e-9);
    assertTrue(upper >= 2.95 && upper <= 4.65, "upper " + upper);
    double side = lower + upper;
    assertTrue(side >= 4.75 && side <= 6.45, "side " + side);

    double strong = epinephrineMg("lidocaine-2-100", side);
    assertTrue(strong >= 0.0475 && strong <= 0.0645, "epinephrine " + strong);
    assertTrue(strong > 0.04);
    assertTrue(epinephrineMg("articaine-4-200", side) <= 0.04);
  }

  private static double epinephrineMg(String name, double ml) {
    Agent agent = Practices.agent(name);
    return new Doses.Amount(agent, ml).epinephrineMg();
  }

  private static double ml(String... names) {
    return Stream.of(names).mapToDouble(name -> injection(name).ml().value()).sum();
  }

  private static SortedSet<Target> expected(Row row, Quadrant quadrant) {
    SortedSet<Target> targets = new TreeSet<>();
    add(targets, quadrant, row.pulp(), Kind.PULP);
    add(targets, quadrant, row.root() ? "6-6" : "", Kind.MESIOBUCCAL_ROOT);
    add(targets, quadrant, row.facial(), Kind.FACIAL);
    add(targets, quadrant, row.lingual(), Kind.LINGUAL);
    return targets;
  }

  private static void add(SortedSet<Target> targets, Quadrant quadrant, String range, Kind kind) {
    if (!range.isEmpty()) {
      IntStream.rangeClosed(range.charAt(0) - '0', range.charAt(2) - '0')
          .forEach(position -> targets.add(new Target(new Tooth(quadrant, position), kind)));
    }
  }

  /** Every target of the mouth that it numbs. */
  private static SortedSet<Target> numbed(PlacedInjection placed) {
    SortedSet<Target> numbed = new TreeSet<>();
    for (Tooth tooth : Tooth.values()) {
      for (Kind kind : Kind.values()) {
        if (placed.numbs(new Target(tooth, kind))) {
          numbed.add(new Target(tooth, kind));
        }
      }
    }
    return numbed;
  }
}

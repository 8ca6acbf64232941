package quadrille.plan.anaesthesia;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.anaesthesia.Practices.adult;
import static quadrille.plan.anaesthesia.Practices.agent;
import static quadrille.plan.anaesthesia.Practices.injection;
import static quadrille.plan.anaesthesia.Practices.onlyInjections;
import static quadrille.plan.anaesthesia.Practices.preferring;
import static quadrille.plan.anaesthesia.Practices.usual;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Target;
import quadrille.plan.work.Target.Kind;

final class InjectionCoverTest {

  private final InjectionCover cover = new InjectionCover(usual(), adult(70));

  @Test
  void aLowerQuadrantTakesBlockAndBuccal() {
    Cover found = cover.cheapest(everything(Quadrant.LR));
    assertEquals(List.of("inferior alveolar right", "long buccal right"), words(found));
    assertEquals(Set.of(), found.uncoverable());
    // Derived from the textbook volumes: 1.5 + 0.3.
    assertEquals(1.8, found.ml(), 1e-9);
    // 1 mL a minute and 60 s each: 90 + 60 and 18 + 60.
    assertEquals(228, found.seconds(usual().numbing()));
    // Beside that 60 s an injection and 20 s a cartridge of 1.8 mL: 16.7 and 3.3.
    assertEquals(227 + 141, found.costSeconds());
  }

  @Test
  void anUpperQuadrantTakesNoMoreThanTheFiveOfTheTextbook() {
    Cover found = cover.cheapest(everything(Quadrant.UL));
    assertEquals(Set.of(), found.uncoverable());
    // Derived from the textbook volumes: 2.95 to 4.65 mL for all five injections.
    assertTrue(found.ml() <= 4.65, words(found).toString());
    assertTrue(found.injections().size() <= 5, words(found).toString());
    for (Target target : everything(Quadrant.UL)) {
      assertTrue(found.numbing(target).isPresent(), target.toString());
    }
  }

  @Test
  void facialGingivaOfALowerMolarNeedsTheLongBuccalAlone() {
    assertEquals(
        List.of("long buccal left"), words(cover.cheapest(List.of(target(37, Kind.FACIAL)))));
  }

  @Test
  void theSparedRootAsksForAnInjectionOfItsOwn() {
    SortedSet<Target> molars = new TreeSet<>();
    for (int iso : new int[] {16, 17, 18}) {
      molars.add(target(iso, Kind.PULP));
    }
    assertEquals(List.of("posterior superior alveolar right"), words(cover.cheapest(molars)));

    molars.add(target(16, Kind.MESIOBUCCAL_ROOT));
    Cover found = cover.cheapest(molars);
    assertEquals(2, found.injections().size());
    assertTrue(
        found
            .numbing(target(16, Kind.MESIOBUCCAL_ROOT))
            .filter(by -> !by.injection().name().equals("posterior superior alveolar"))
            .isPresent());
  }

  @Test
  void theNasopalatineIsGivenOnceForBothSides() {
    List<Target> palate = List.of(target(13, Kind.LINGUAL), target(23, Kind.LINGUAL));
    assertEquals(List.of("nasopalatine right"), words(cover.cheapest(palate)));
  }

  @Test
  void theNasopalatineJoinsTheNumbSide() {
    Target palate = target(11, Kind.LINGUAL);
    Target beside = target(12, Kind.LINGUAL);
    assertEquals(List.of(Quadrant.UR), quadrants(cover.cheapest(List.of(palate, beside))));
    assertEquals(
        List.of(Quadrant.UL),
        quadrants(cover.cheapest(List.of(target(21, Kind.LINGUAL), target(22, Kind.LINGUAL)))));
    // With the upper left numb, the right palate is reached from the left group.
    Cover left = cover.cheapest(List.of(palate, beside, target(26, Kind.LINGUAL)));
    assertEquals(List.of(Quadrant.UL), quadrants(left));
    assertEquals(Quadrant.UL, left.numbing(palate).map(PlacedInjection::quadrant).orElseThrow());
    // With the lower left numb, an upper left group is made.
    assertEquals(
        List.of(Quadrant.UL, Quadrant.LL),
        quadrants(cover.cheapest(List.of(palate, beside, target(36, Kind.PULP)))));
    // With both upper sides numb, the right one; with the upper left and the lower right, the left.
    assertEquals(
        Quadrant.UR,
        cover
            .cheapest(List.of(palate, beside, target(16, Kind.LINGUAL), target(26, Kind.LINGUAL)))
            .numbing(palate)
            .map(PlacedInjection::quadrant)
            .orElseThrow());
    assertEquals(
        Quadrant.UL,
        cover
            .cheapest(List.of(palate, beside, target(26, Kind.LINGUAL), target(46, Kind.PULP)))
            .numbing(palate)
            .map(PlacedInjection::quadrant)
            .orElseThrow());
  }

  /** One tooth's palate takes an infiltration; two the nasopalatine. */
  @Test
  void onePalateTakesAnInfiltration() {
    assertEquals(
        List.of("palatal infiltration 11"),
        words(cover.cheapest(List.of(target(11, Kind.LINGUAL)))));
  }

  @Test
  void groupsAreInTheOrderOfTheQuadrants() {
    SortedSet<Target> all = new TreeSet<>();
    for (Quadrant quadrant : Quadrant.values()) {
      all.addAll(everything(quadrant));
    }
    Cover found = cover.cheapest(all);
    assertEquals(List.of(Quadrant.values()), quadrants(found));
    assertEquals(
        1,
        found.injections().stream()
            .filter(injection -> injection.injection().name().equals("nasopalatine"))
            .count());
  }

  @Test
  void theLongestOnsetIsGivenFirst() {
    // Lidocaine: block 4 minutes, infiltration 2. The table is turned round, so that its order
    // alone would put the infiltration first.
    Practice turned = onlyInjections("upper infiltration", "greater palatine");
    List<Target> needs = List.of(target(17, Kind.PULP), target(17, Kind.LINGUAL));
    InjectionCover turnedCover = new InjectionCover(turned, adult(70));
    Cover byOnset = turnedCover.covers(Needs.of(needs), agent("lidocaine-2-100"), null).get(0);
    assertEquals(List.of("greater palatine right", "upper infiltration 17"), words(byOnset));
    // Articaine takes up to 9 minutes either way, so the table decides.
    Cover byTable = turnedCover.covers(Needs.of(needs), agent("articaine-4-100"), null).get(0);
    assertEquals(List.of("upper infiltration 17", "greater palatine right"), words(byTable));
  }

  @Test
  void aPracticeWithoutAgentsKeepsTheOrderOfItsTable() {
    Cover found = new InjectionCover(preferring(), adult(70)).cheapest(everything(Quadrant.LR));
    assertEquals(List.of("inferior alveolar right", "long buccal right"), words(found));
  }

  @Test
  void aTargetIsCountedUnderTheFirstInjectionThatNumbsIt() {
    Cover found = cover.cheapest(List.of(target(45, Kind.LINGUAL), target(46, Kind.FACIAL)));
    assertEquals(
        Optional.of("inferior alveolar right"),
        found.numbing(target(45, Kind.FACIAL)).map(PlacedInjection::words));
    assertEquals(Optional.empty(), found.numbing(target(35, Kind.FACIAL)));
  }

  @Test
  void whatNoInjectionNumbsIsNamedAndTheRestIsCovered() {
    InjectionCover poor =
        new InjectionCover(onlyInjections("inferior alveolar", "nasopalatine"), adult(70));
    Target buccal = target(46, Kind.FACIAL);
    Target upper = target(16, Kind.PULP);
    Cover found = poor.cheapest(List.of(buccal, upper, target(46, Kind.PULP)));
    assertEquals(new TreeSet<>(List.of(buccal, upper)), found.uncoverable());
    assertEquals(List.of("inferior alveolar right"), words(found));
  }

  @Test
  void nothingNeedsNoInjection() {
    Cover found = cover.cheapest(List.of());
    assertEquals(Set.of(), found.uncoverable());
    assertEquals(List.of(), found.groups());
    assertEquals(0, found.costSeconds());
  }

  @Test
  void needleAversionDoublesTheWeightOfEachInjection() {
    // 12 and 14: one infraorbital of 1.05 mL, not two infiltrations of 0.6.
    List<Target> two = List.of(target(12, Kind.PULP), target(14, Kind.PULP));
    InjectionCover averse = new InjectionCover(usual(), adult(70, Alert.NEEDLE_AVERSE));
    assertEquals(1, averse.cheapest(two).injections().size());
    int more = averse.cheapest(two).costSeconds() - cover.cheapest(two).costSeconds();
    assertEquals(60, more);
  }

  @Test
  void aDeepBlockCostsMoreWhereAnAlertPricesIt() {
    List<Target> molar = List.of(target(46, Kind.PULP));
    InjectionCover bleeding = new InjectionCover(usual(), adult(70, Alert.WARFARIN));
    assertEquals(600, bleeding.cheapest(molar).costSeconds() - cover.cheapest(molar).costSeconds());
    // The long buccal is no deep one, nor is what numbs the palate.
    for (Target shallow : List.of(target(47, Kind.FACIAL), target(16, Kind.LINGUAL))) {
      assertEquals(
          cover.cheapest(List.of(shallow)).costSeconds(),
          bleeding.cheapest(List.of(shallow)).costSeconds());
    }
  }

  private static List<String> chosen(Practice practice, Target... needs) {
    return words(
        new InjectionCover(practice, adult(70))
            .covers(Needs.of(List.of(needs)), agent("lidocaine-2-100"), null)
            .get(0));
  }

  /** Three teeth of one side take a block; with one of the other side all are infiltrated. */
  @Test
  void frontTeethOfBothSidesAreInfiltrated() {
    Target[] right = {target(11, Kind.PULP), target(12, Kind.PULP), target(13, Kind.PULP)};
    assertEquals(List.of("anterior superior alveolar right"), chosen(usual(), right));
    assertEquals(
        List.of(
            "upper infiltration 11",
            "upper infiltration 12",
            "upper infiltration 13",
            "upper infiltration 21"),
        chosen(usual(), right[0], right[1], right[2], target(21, Kind.PULP)));
    assertEquals(
        List.of("anterior superior alveolar left"),
        chosen(usual(), target(21, Kind.PULP), target(22, Kind.PULP), target(23, Kind.PULP)));
  }

  /** Two mental blocks would be the cheapest. */
  @Test
  void noBlockIsGivenOnBothSidesThatNeverIs() {
    assertEquals(
        List.of("mental and incisive left", "inferior alveolar right"),
        chosen(Practices.relaxed(), target(44, Kind.PULP), target(34, Kind.PULP)));
  }

  /** Lidocaine does not numb a lower incisor from the labial side dependably, articaine does. */
  @Test
  void theSecondAgentIsTakenWhereTheFirstIsNotDependable() {
    Needs both = Needs.of(List.of(target(41, Kind.PULP), target(36, Kind.PULP)));
    Agent lidocaine = agent("lidocaine-2-100");
    Agent articaine = agent("articaine-4-100");
    assertEquals(
        List.of("inferior alveolar left", "mental and incisive right"),
        words(cover.covers(both, lidocaine, null).get(0)));
    List<PlacedInjection> found = cover.covers(both, lidocaine, articaine).get(0).injections();
    assertEquals(
        List.of("inferior alveolar left", "lower incisor infiltration 41"),
        found.stream().map(PlacedInjection::words).toList());
    assertEquals(
        List.of(lidocaine, articaine), found.stream().map(PlacedInjection::agent).toList());
  }

  @Test
  void whatNoSyringeGivesIsAnError() {
    for (double ml : List.of(100.0, 100.1)) {
      InjectionCover much =
          new InjectionCover(
              changed(one -> one.withVolumes(List.of(new Injection.Volume(figure(ml), null)))),
              adult(70));
      if (ml > 100) {
        assertThrows(
            IllegalArgumentException.class, () -> much.cheapest(List.of(target(46, Kind.PULP))));
      } else {
        assertEquals(100, much.cheapest(List.of(target(46, Kind.PULP))).ml());
      }
    }
    InjectionCover slow =
        new InjectionCover(changed(one -> one.withMlPerMinute(figure(1e-6))), adult(70));
    assertThrows(
        IllegalArgumentException.class, () -> slow.cheapest(List.of(target(46, Kind.PULP))));
  }

  private static Figure figure(double value) {
    return new Figure(value, "made up for a test");
  }

  private static Practice changed(UnaryOperator<Injection> change) {
    return onlyInjections("inferior alveolar")
        .withInjections(Map.of("inferior alveolar", change.apply(injection("inferior alveolar"))));
  }

  @Test
  void answersAreTheSameWhenAskedAgainAndByBits() {
    SortedSet<Target> needs = everything(Quadrant.UR);
    Cover first = cover.cheapest(needs);
    assertEquals(first, cover.cheapest(Needs.of(needs)));
    assertEquals(first, new InjectionCover(usual(), adult(70)).cheapest(needs));
    assertEquals(needs, Needs.of(needs).targets());
    assertEquals(
        Needs.of(everything(Quadrant.LL)).and(Needs.of(needs)).targets().size(),
        needs.size() + everything(Quadrant.LL).size());
  }

  @Test
  void aPlaceThatDoesNotFitTheInjectionIsAnError() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new PlacedInjection(injection("long buccal"), Quadrant.UR, null));
    assertThrows(
        IllegalArgumentException.class,
        () -> new PlacedInjection(injection("upper infiltration"), Quadrant.UR, null));
    assertThrows(
        IllegalArgumentException.class,
        () -> new PlacedInjection(injection("long buccal"), Quadrant.LR, Tooth.ofIso(46)));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            new PlacedInjection(
                injection("lower incisor infiltration"), Quadrant.LR, Tooth.ofIso(46)));
    assertThrows(
        IllegalArgumentException.class,
        () -> new PlacedInjection(injection("upper infiltration"), Quadrant.UR, Tooth.ofIso(21)));
  }

  static SortedSet<Target> everything(Quadrant quadrant) {
    SortedSet<Target> targets = new TreeSet<>();
    for (int position = 1; position <= 8; position++) {
      Tooth tooth = new Tooth(quadrant, position);
      targets.add(new Target(tooth, Kind.PULP));
      targets.add(new Target(tooth, Kind.FACIAL));
      targets.add(new Target(tooth, Kind.LINGUAL));
    }
    if (quadrant == Quadrant.UR || quadrant == Quadrant.UL) {
      targets.add(new Target(new Tooth(quadrant, 6), Kind.MESIOBUCCAL_ROOT));
    }
    return targets;
  }

  private static Target target(int iso, Kind kind) {
    return new Target(Tooth.ofIso(iso), kind);
  }

  private static List<String> words(Cover cover) {
    return cover.injections().stream().map(PlacedInjection::words).toList();
  }

  private static Collection<Quadrant> quadrants(Cover cover) {
    return cover.groups().stream().map(Cover.Group::quadrant).toList();
  }
}

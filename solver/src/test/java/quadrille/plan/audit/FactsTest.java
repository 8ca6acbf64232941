package quadrille.plan.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Numbing;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Technique;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;
import quadrille.plan.work.Target.Kind;

/** What the audit reads from chart and practice, and of an injection by itself. */
final class FactsTest {
  private static final Site PROBED = new Site(4, 0, false);
  private static final Site UNPROBED = new Site(null, 0, false);

  private final SmallPractice practice = new SmallPractice();
  private final List<ToothChart> teeth = new ArrayList<>();

  private void add(int iso, ToothStatus status, int unprobedFacial, int unprobedLingual) {
    teeth.add(
        new ToothChart(
            Tooth.ofIso(iso),
            status,
            Deposit.HEAVY,
            0,
            0,
            Set.of(),
            reading(unprobedFacial),
            reading(unprobedLingual)));
  }

  private static AspectReading reading(int unprobed) {
    return new AspectReading(
        unprobed > 0 ? UNPROBED : PROBED,
        unprobed > 1 ? UNPROBED : PROBED,
        unprobed > 2 ? UNPROBED : PROBED);
  }

  private Facts facts() {
    Chart chart = new SmallChart().build();
    return new Facts(
        new Chart(chart.caseName(), null, chart.numbering(), chart.patient(), teeth),
        practice.build());
  }

  // ---- what was not probed

  /** Of twelve sites of natural teeth three are a quarter, which the practice plans with. */
  @Test
  void aNewChartComesFirstWhereMoreThanAQuarterIsUnprobed() {
    add(16, ToothStatus.NATURAL, 3, 0);
    add(15, ToothStatus.NATURAL, 0, 0);
    add(26, ToothStatus.IMPLANT, 3, 3);
    add(18, ToothStatus.PLANNED_EXTRACTION, 3, 3);
    assertEquals(false, facts().chartFirst());
    add(36, ToothStatus.NATURAL, 1, 1);
    assertEquals(true, facts().chartFirst());
    add(37, ToothStatus.NATURAL, 0, 0);
    assertEquals(false, facts().chartFirst());
  }

  @Test
  void aspectsAreChartedThatHaveASiteNotProbed() {
    add(16, ToothStatus.NATURAL, 3, 0);
    add(15, ToothStatus.NATURAL, 1, 1);
    add(26, ToothStatus.IMPLANT, 3, 3);
    List<Tooth> all = List.of(Tooth.ofIso(16), Tooth.ofIso(15), Tooth.ofIso(26), Tooth.ofIso(11));
    assertEquals(3, facts().unprobedAspects(all, StepAspect.BOTH));
    assertEquals(2, facts().unprobedAspects(all, StepAspect.FACIAL));
    assertEquals(1, facts().unprobedAspects(all, StepAspect.LINGUAL));
    // 20 s a tooth, half of it an aspect.
    assertEquals(30, facts().chartSeconds(3));
  }

  // ---- agents

  private boolean anyAgent(AlertRule rule) {
    SmallChart chart = new SmallChart().alert(rule.alert());
    practice.alert(rule);
    return new Facts(chart.build(), practice.build()).anyAgent();
  }

  /** Lidocaine with epinephrine and prilocaine without, both amides. */
  @Test
  void anAgentIsLeftUnlessAllAreForbidden() {
    AlertRule rule = AlertRule.of(Alert.DIABETES, "made up");
    assertEquals(true, anyAgent(rule));
    assertEquals(true, anyAgent(rule.withForbids(List.of("epinephrine"))));
    assertEquals(true, anyAgent(rule.withForbids(List.of("lidocaine"))));
    assertEquals(false, anyAgent(rule.withForbids(List.of("epinephrine", "prilocaine"))));
    assertEquals(false, anyAgent(rule.withForbidsAmides(true)));
    Practice built = practice.build();
    Map<String, Agent> agents = new LinkedHashMap<>(built.agents());
    agents.computeIfPresent("prilocaine-4", (name, one) -> noAmide(one));
    assertEquals(
        true,
        new Facts(new SmallChart().alert(Alert.DIABETES).build(), built.withAgents(agents))
            .anyAgent());
  }

  private static Agent noAmide(Agent agent) {
    return new Agent(
        agent.name(),
        agent.words(),
        agent.drug(),
        agent.vasoconstrictor(),
        agent.mgPerMl(),
        agent.epinephrineMgPerMl(),
        agent.cartridgeMl(),
        agent.limits(),
        agent.pulpalMinutes(),
        agent.softTissueMinutes(),
        agent.onsetMinutes(),
        agent.fromAgeYears(),
        agent.lowerBlockPriceSeconds(),
        agent.lowerBlockPulpalMinutes(),
        false);
  }

  // ---- needs and gel

  @Test
  void aGrossPassNeedsWhatThePracticeNumbsForIt() {
    Tooth deep = Tooth.ofIso(46);
    Target facial = new Target(deep, Kind.FACIAL);
    Target pulp = new Target(deep, Kind.PULP);
    Map<Set<Numbing.Need>, Set<Target>> needs =
        Map.of(
            EnumSet.noneOf(Numbing.Need.class),
            Set.of(),
            EnumSet.of(Numbing.Need.TISSUE),
            Set.of(facial),
            EnumSet.of(Numbing.Need.PULP),
            Set.of(pulp),
            EnumSet.allOf(Numbing.Need.class),
            Set.of(facial, pulp));
    needs.forEach(
        (asked, due) -> {
          practice.grossNeeds = asked;
          assertEquals(
              new TreeSet<>(due),
              new Facts(new SmallChart().build(), practice.build())
                  .needs(Pass.GROSS, StepAspect.FACIAL, List.of(deep)));
        });
  }

  /** Pocket gel reaches 6 mm and lasts 14 minutes. */
  @Test
  void gelFailsWhereItDoesNotReachOrLast() {
    add(16, ToothStatus.NATURAL, 0, 1);
    List<Tooth> tooth = List.of(Tooth.ofIso(16));
    assertNull(facts().gelFails(Pass.FINE, StepAspect.FACIAL, tooth, 840));
    assertEquals(
        "the step takes longer than the gel lasts",
        facts().gelFails(Pass.FINE, StepAspect.FACIAL, tooth, 841));
    assertEquals(
        "a site of 16 was not probed", facts().gelFails(Pass.FINE, StepAspect.LINGUAL, tooth, 100));
    assertEquals(
        "it is not for implants",
        facts().gelFails(Pass.IMPLANT_CARE, StepAspect.FACIAL, tooth, 100));
  }

  // ---- an injection by itself

  @Test
  void anInjectionOfWhichSomethingIsNotKnownIsNeverNumb() {
    Practice built = practice.build();
    Injection kind = built.injections().get("inferior alveolar");
    Agent agent = built.agents().get("lidocaine-2-100");
    GivenInjection given =
        new GivenInjection("inferior alveolar", Quadrant.LR, null, "lidocaine-2-100", 1.5);
    Entry.Inject entry = new Entry.Inject(600, 120, given.ref());
    Target pulp = new Target(Tooth.ofIso(46), Kind.PULP);
    assertEquals(1320, new Shot(given, kind, agent, entry).readySecond(pulp));
    assertEquals(720 + 3600, new Shot(given, kind, agent, entry).expirySecond(pulp));
    Injection elsewhere =
        built.injections().get("upper infiltration").withName("inferior alveolar");
    Agent blocksOnly = blocksOnly(agent);
    for (Shot shot :
        List.of(
            new Shot(given, null, agent, entry),
            new Shot(given, kind, null, entry),
            new Shot(given, kind, agent, null),
            new Shot(given, elsewhere, blocksOnly, entry))) {
      assertEquals(Double.POSITIVE_INFINITY, shot.readySecond(pulp), shot.toString());
      assertEquals(Double.NEGATIVE_INFINITY, shot.expirySecond(pulp), shot.toString());
    }
    assertEquals(false, new Shot(given, null, agent, entry).numbs(pulp));
  }

  private static Agent blocksOnly(Agent agent) {
    Map<Technique, Figure> block = Map.of(Technique.BLOCK, SmallPractice.figure(4));
    return new Agent(
        agent.name(),
        agent.words(),
        agent.drug(),
        agent.vasoconstrictor(),
        agent.mgPerMl(),
        agent.epinephrineMgPerMl(),
        agent.cartridgeMl(),
        agent.limits(),
        block,
        agent.softTissueMinutes(),
        block,
        null,
        null,
        null,
        true);
  }

  @Test
  void theMesiobuccalRootIsNumbByWhatReachesIt() {
    Injection kind = practice.build().injections().get("upper infiltration");
    GivenInjection given =
        new GivenInjection(
            "upper infiltration", Quadrant.UR, Tooth.ofIso(16), "lidocaine-2-100", 0.6);
    Target root = new Target(Tooth.ofIso(16), Kind.MESIOBUCCAL_ROOT);
    assertEquals(true, new Shot(given, kind, null, null).numbs(root));
    assertEquals(false, new Shot(given, kind.withMesiobuccalRoot(false), null, null).numbs(root));
  }
}

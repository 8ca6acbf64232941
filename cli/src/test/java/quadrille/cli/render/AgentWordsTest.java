package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.planning.Clash;
import quadrille.treatment.record.Given;

/** People read what an agent is called, and never its code in the practice file. */
final class AgentWordsTest {
  private static final Practice DEFAULTS = PracticeReader.defaults();

  @Test
  void whoeverReadsAnAgentReadsItsWords() {
    for (Agent agent : DEFAULTS.agents().values()) {
      for (String said : said(agent.name())) {
        assertTrue(said.contains(agent.words()), said);
        assertFalse(said.contains(agent.name()), said);
      }
    }
  }

  private static List<String> said(String agent) {
    HeldBack.Reason none =
        new HeldBack.NoAgent(
            List.of(
                new HeldBack.Refused(
                    agent, List.of(new Objection.Forbidden(Alert.COCAINE, "epinephrine")))));
    GivenInjection planned = new GivenInjection("inferior alveolar", Quadrant.LR, null, agent, 1.5);
    return List.of(
        PlanFileWords.of(DEFAULTS).reason(none),
        ClashWords.of(new Clash.EverythingWaits(none), DEFAULTS),
        ReasonWords.need(new Change.AllowAgent(agent), DEFAULTS),
        ChangeWords.what(
            new PlanChange(
                1,
                new PlanChange.What.Gives(List.of(planned), List.of()),
                PlanChange.Why.Known.OTHER_NUMBING),
            Numbering.ISO3950,
            DEFAULTS),
        FindingWords.given(
            new Given("palatal infiltration", Quadrant.UR, Tooth.ofIso(13), agent, 0.3),
            Numbering.ISO3950,
            DEFAULTS));
  }

  @Test
  void whatNumbsBothSidesHasNone() {
    InjectionRef palate = new InjectionRef("nasopalatine", Quadrant.UR, null);
    assertEquals(
        "nasopalatine, midline",
        PlanFileWords.of(DEFAULTS).entry(new Entry.Inject(0, 87, palate), Numbering.ISO3950));
    assertEquals(
        "inferior alveolar right",
        PlanFileWords.of(DEFAULTS)
            .entry(
                new Entry.Inject(0, 87, new InjectionRef("inferior alveolar", Quadrant.LR, null)),
                Numbering.ISO3950));
  }
}

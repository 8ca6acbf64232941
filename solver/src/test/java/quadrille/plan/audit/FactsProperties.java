package quadrille.plan.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.Mouths;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkPlanner;

/** Two readings of one rule, written apart: what must be numb by the audit and by the planner. */
final class FactsProperties {

  @Property(tries = 300)
  @Domain(Mouths.class)
  @Domain(DomainContext.Global.class)
  void needsAreThoseOfThePlanner(@ForAll Chart chart, @ForAll boolean gelOwned)
      throws UnworkableException, InvalidDocumentException {
    Practice practice =
        PracticeReader.read(
            "practice.json",
            "{\"schema\": \"quadrille/practice/1\", \"gel\": {\"owned\": " + gelOwned + "}}");
    Facts facts = new Facts(chart, practice);
    for (Step step : WorkPlanner.plan(chart, practice, Area.of(chart)).steps()) {
      if (step.gel()) {
        assertNull(
            facts.gelFails(step.pass(), step.aspect(), step.teeth(), step.seconds()), step.words());
      } else {
        assertEquals(
            step.needs(), facts.needs(step.pass(), step.aspect(), step.teeth()), step.words());
      }
    }
  }
}

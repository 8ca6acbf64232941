package quadrille.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import quadrille.chart.Area;
import quadrille.chart.Chart;
import quadrille.mouths.Mouths;
import quadrille.practice.Practice;
import quadrille.practice.PracticeReader;
import quadrille.reading.InvalidDocumentException;
import quadrille.work.Step;
import quadrille.work.UnworkableException;
import quadrille.work.WorkPlanner;

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

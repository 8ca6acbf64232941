package quadrille.cli.render;

import quadrille.facts.practice.Practice;
import quadrille.plan.planning.Clash;
import quadrille.plan.planning.PlanOutcome.NoPlan;

/** That there is no plan, why, and what would help, as text. */
public final class NoPlanText {

  private NoPlanText() {}

  /** Renders it. */
  public static String of(Practice practice, NoPlan none) {
    Page page = new Page(false);
    page.paragraph(
        none.cutShort()
            ? "The search was cut short, and no plan that keeps every hard rule had been found."
                + " In the way of the nearest:"
            : "No plan keeps every hard rule. In the way:");
    page.items(ClashWords.of(none.clashes(), practice));
    if (none.remedies().isEmpty() && (none.cutShort() || waits(none))) {
      return page.text();
    }
    if (none.remedies().isEmpty()) {
      return page.paragraph("No single change that was tried would help.").text();
    }
    page.paragraph("What would help, each tried by planning again:");
    return page.items(ClashWords.remedies(none.remedies(), practice)).text();
  }

  /** Whether all work waits for what the clash itself names, so that nothing else would help. */
  private static boolean waits(NoPlan none) {
    return none.clashes().stream().allMatch(clash -> clash instanceof Clash.EverythingWaits);
  }
}

package quadrille.cli.render;

import java.util.List;
import java.util.stream.Collectors;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.PlanChange;
import quadrille.plan.planning.Clash;
import quadrille.treatment.restaging.Restaged;
import quadrille.treatment.restaging.WayOn;

/** What a new plan of a course under way changes, as text. */
public final class ChangesText {

  private ChangesText() {}

  /**
   * Renders the changes, above the plan itself.
   *
   * @param ways all ways on; at least one
   * @param taken the number of the one that is shown, 1, 2, 3 …
   */
  public static String of(List<WayOn> ways, int taken, Practice practice, boolean styled) {
    Restaged restaged = ways.get(taken - 1).restaged();
    Page page = new Page(styled);
    page.heading("Against the plan before");
    if (restaged.changes().isEmpty()) {
      page.paragraph(
          restaged.course().visits().isEmpty()
              ? "Nothing changes: no visit is left."
              : "Nothing changes: the visits to come stay as they are.");
    }
    for (PlanChange change : restaged.changes()) {
      page.item(ChangeWords.of(change, restaged.chart().numbering(), practice));
    }
    if (!restaged.before().given().isEmpty()) {
      page.paragraph(
          "Given earlier that day: "
              + restaged.before().given().stream()
                  .map(
                      given ->
                          Words.injection(given.ref(), restaged.chart().numbering(), practice)
                              + " ("
                              + Words.agent(given.agent(), practice)
                              + ")")
                  .collect(Collectors.joining(", "))
              + ". The dose limits hold for the day, but the doses shown are those of the visit"
              + " alone."
              + (practice.appointments().oneNumbSide()
                  ? " The next visit numbs no other side."
                  : " Mind which side is numb already."));
    }
    List<String> lines = WayWords.lines(ways, taken);
    if (!lines.isEmpty()) {
      page.heading("Ways to go on (--way N takes another)");
      lines.forEach(page::item);
    }
    return page.text();
  }

  /** Why what is left cannot be staged. */
  public static String none(List<Clash> clashes, Practice practice, boolean cutShort) {
    Page page = new Page(false);
    page.paragraph(
        cutShort
            ? "The search was cut short before a plan of what is left was found that keeps every"
                + " hard rule; a longer one may find it. In the way so far:"
            : "No plan of what is left keeps every hard rule. In the way:");
    page.items(ClashWords.of(clashes, practice));
    return page.text();
  }
}

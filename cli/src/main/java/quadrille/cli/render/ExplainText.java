package quadrille.cli.render;

import java.util.stream.Collectors;
import quadrille.facts.chart.Chart;
import quadrille.plan.course.Course;
import quadrille.plan.planning.Explanation;

/** Why a course is as it is, as text: what it costs, term by term, and what decided. */
public final class ExplainText {

  private ExplainText() {}

  /**
   * Renders an explanation.
   *
   * @param chart the mouth, for its numbering
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(Chart chart, Course course, Explanation explanation, boolean styled) {
    Page page = new Page(styled);
    CostText.table(page, course);
    for (Explanation.OfArea area : explanation.areas()) {
      page.heading(Words.area(area.area().ref(), chart));
      page.item(
          "in visit " + String.join(" and ", area.visits().stream().map(String::valueOf).toList()));
      for (Explanation.Elsewhere other : area.elsewhere()) {
        page.item("all of it in visit " + other.visit() + " " + verdict(other));
      }
    }
    return page.text();
  }

  private static String verdict(Explanation.Elsewhere other) {
    if (!other.broken().isEmpty()) {
      return "would break "
          + String.join(", ", other.broken().stream().map(RuleWords::rule).toList());
    }
    String terms =
        other.changes().entrySet().stream()
            .map(term -> ClashWords.term(term.getKey()) + " " + signed(term.getValue()))
            .collect(Collectors.joining(", "));
    return "would cost "
        + signed(other.moreSeconds())
        + (terms.isEmpty() ? "" : " (" + terms + ")");
  }

  private static String signed(long seconds) {
    return (seconds < 0 ? "" : "+") + WholeMinutes.price(seconds);
  }
}

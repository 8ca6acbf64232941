package quadrille.cli.render;

import java.util.Map;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;

/** What a course costs, term by term, and how far from perfect it can be. */
public final class CostText {

  private CostText() {}

  /** One sentence on the distance to the lower bound. */
  public static String distance(Course course) {
    Cost cost = course.cost();
    String such = "No course of " + Words.count(course.visits().size(), "visit");
    if (cost.provenBest()) {
      return "Proven best. No other plan of "
          + Words.count(course.visits().size(), "visit")
          + " is better by this practice's weights: all goals weighed in chair time, it costs "
          + WholeMinutes.price(cost.seconds())
          + ".";
    }
    double above = cost.seconds() / (double) Math.max(1, cost.lowerBoundSeconds()) - 1;
    return "All goals weighed in chair time, this course costs "
        + WholeMinutes.price(cost.seconds())
        + ". "
        + such
        + " can cost less than "
        + WholeMinutes.price(cost.lowerBoundSeconds())
        + ": this one is at most "
        + Words.number(Math.ceil(above * 1000) / 10, 1)
        + "\u00a0% above the best there can be.";
  }

  /** The table of terms. */
  static void table(Page page, Course course) {
    Cost cost = course.cost();
    page.heading("Cost in minutes of chair time");
    for (Map.Entry<CourseTerm, Long> term : cost.terms().entrySet()) {
      row(page, ClashWords.term(term.getKey()), term.getValue(), cost.seconds());
    }
    row(page, "together", cost.seconds(), cost.seconds());
    row(page, "lower bound", cost.lowerBoundSeconds(), cost.seconds());
  }

  private static void row(Page page, String name, long seconds, long all) {
    String share = all == 0 ? "" : Words.percent(seconds / (double) all);
    page.line(
        Page.pad(Words.capital(name), 24)
            + Page.padLeft(WholeMinutes.price(seconds), 12)
            + Page.padLeft(share, 8));
  }
}

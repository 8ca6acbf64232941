package quadrille.cli;

import quadrille.cli.render.ClashWords;
import quadrille.facts.chart.Chart;
import quadrille.plan.work.UnworkableException;

/** Work that no owned insert may do, as a message. */
final class Unworkables {

  private Unworkables() {}

  /** One line for each piece of work, teeth by the chart's own numbering. */
  static String message(UnworkableException unworkable, Chart chart) {
    return "No insert of the practice may do some of the work.\n"
        + String.join("\n", ClashWords.unworkable(unworkable.work(), chart));
  }
}

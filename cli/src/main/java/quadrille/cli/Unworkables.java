package quadrille.cli;

import java.util.stream.Collectors;
import quadrille.facts.chart.Chart;
import quadrille.plan.work.Unworkable;
import quadrille.plan.work.UnworkableException;

/** Work that no owned insert may do, as a message. */
final class Unworkables {

  private Unworkables() {}

  /** One line for each piece of work, teeth by the chart's own numbering. */
  static String message(UnworkableException unworkable, Chart chart) {
    return unworkable.work().stream()
        .map(work -> line(work, chart))
        .collect(
            Collectors.joining("\n", "No insert of the practice may do some of the work.\n", ""));
  }

  private static String line(Unworkable work, Chart chart) {
    String teeth =
        work.teeth().stream().map(chart.numbering()::name).collect(Collectors.joining(" "));
    return work.area().ref().name(chart.numbering())
        + ", "
        + work.pass().word()
        + ", "
        + work.aspect().word()
        + " ("
        + teeth
        + "): "
        + work.why()
        + "; would do: "
        + work.wouldDo();
  }
}

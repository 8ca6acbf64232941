package quadrille.facts.exchange;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartDraft;
import quadrille.facts.chart.ChartWriter;

/**
 * A chart of another program, as far as a mapping says what it means.
 *
 * @param lines tooth lines, with a question mark wherever something is left open
 * @param notes what could not be taken over, and why
 */
public record ForeignChart(String lines, List<String> notes) {

  public ForeignChart {
    notes = List.copyOf(notes);
  }

  /** The chart; null where something is left open. */
  public @Nullable Chart chart() {
    return ChartDraft.of("Line", lines).chart();
  }

  /** The lines, in columns once nothing is left open. */
  public String text() {
    Chart chart = chart();
    return chart == null ? lines : ChartWriter.lines(chart);
  }
}

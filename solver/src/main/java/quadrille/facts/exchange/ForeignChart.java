package quadrille.facts.exchange;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.InvalidDocumentException;
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

  /** Whether a document is FHIR, rather than a table. */
  public static boolean isFhir(String text) {
    String start = text.startsWith("\uFEFF") ? text.substring(1) : text;
    return start.stripLeading().startsWith("{");
  }

  /**
   * Reads a table or a Bundle of Observations.
   *
   * @param source the document's name, for faults
   * @throws InvalidDocumentException where it is neither, or the mapping does not know its columns
   */
  public static ForeignChart read(String source, String text, Mapping mapping)
      throws InvalidDocumentException {
    return isFhir(text)
        ? FhirChart.read(source, text, mapping)
        : TableChart.read(source, text, mapping);
  }

  /**
   * What the columns or the codes of a document may mean, by their names; not confirmed.
   *
   * @throws InvalidDocumentException where it is neither a table nor a Bundle
   */
  public static Mapping proposed(String source, String text) throws InvalidDocumentException {
    return isFhir(text) ? FhirChart.proposed(source, text) : MappingProposal.of(source, text);
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

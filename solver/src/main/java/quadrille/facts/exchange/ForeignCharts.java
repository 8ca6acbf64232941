package quadrille.facts.exchange;

import java.util.List;
import quadrille.document.CsvTable;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;
import quadrille.facts.exchange.Meaning.What;

/** The door: reads what another program exports, and proposes what it may mean. */
public final class ForeignCharts {

  private ForeignCharts() {}

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
   * The numberings by which all teeth of a table can be read, by its own names of them; more than
   * one where they do not tell.
   *
   * @throws InvalidDocumentException where it is no table
   */
  public static List<Numbering> numberings(String source, String text, Mapping mapping)
      throws InvalidDocumentException {
    Faults faults = new Faults();
    CsvTable table = CsvTable.any(source, text, faults);
    faults.check();
    return TableChart.numberings(TableChart.cells(table, mapping, What.TOOTH));
  }

  /**
   * What the columns or the codes of a document may mean, by their names; not confirmed.
   *
   * @throws InvalidDocumentException where it is neither a table nor a Bundle
   */
  public static Mapping proposed(String source, String text) throws InvalidDocumentException {
    return isFhir(text) ? FhirChart.proposed(source, text) : MappingProposal.of(source, text);
  }
}

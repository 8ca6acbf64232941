package quadrille.facts.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.document.CsvTable;
import quadrille.document.CsvTable.Cell;
import quadrille.document.CsvTable.Row;
import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.document.Place;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.exchange.Meaning.What;

/** Reads a table with columns of its own: a row a tooth, a tooth and aspect, or a site. */
final class TableChart {
  private final Mapping mapping;
  private final Numbering numbering;
  private final Gathered gathered;

  private TableChart(Mapping mapping, Numbering numbering) {
    this.mapping = mapping;
    this.numbering = numbering;
    this.gathered = new Gathered(mapping);
  }

  static ForeignChart read(String source, String text, Mapping mapping)
      throws InvalidDocumentException {
    Faults faults = new Faults();
    CsvTable table = CsvTable.any(source, text, faults);
    Place header = new Place(source, 1, 1, "");
    for (String column : table.rows().get(0).cells().keySet()) {
      if (mapping.columns().get(column) == null) {
        faults.add(
            header,
            "column " + FaultWords.quote(column),
            "columns that the mapping knows; it may also call them ignore");
      }
    }
    if (mapping.columns().values().stream()
        .noneMatch(meaning -> meaning != null && meaning.what() == What.TOOTH)) {
      faults.add(header, "no column that means tooth", "one, by the mapping");
    }
    Numbering numbering = mapping.numbering();
    if (numbering == null) {
      faults.add(header, "no numbering", "iso3950 or universal, said by the mapping");
    }
    faults.check();
    TableChart chart = new TableChart(mapping, numbering == null ? Numbering.ISO3950 : numbering);
    table.rows().forEach(chart::row);
    return chart.gathered.chart(chart.numbering);
  }

  private void row(Row row) {
    String where = "Line " + row.place().line();
    @Nullable Tooth tooth = null;
    Meaning place = new Meaning(null, null, null);
    List<Map.Entry<Meaning, Cell>> said = new ArrayList<>();
    for (Map.Entry<String, Cell> entry : row.cells().entrySet()) {
      Meaning meaning = mapping.columns().get(entry.getKey());
      Cell cell = entry.getValue();
      if (meaning == null || meaning.what() == What.IGNORE) {
        continue;
      }
      @Nullable What what = meaning.what();
      if (what == What.TOOTH) {
        tooth = numbering.tooth(number(cell.text())).orElse(null);
        if (tooth == null && !cell.blank()) {
          gathered.note(
              where
                  + ": "
                  + FaultWords.quote(cell.text())
                  + " is no tooth by "
                  + numbering.word()
                  + "; passed over.");
        }
      } else if (what == What.ASPECT || what == What.SITE || what == What.PLACE) {
        Optional<Meaning> there =
            cell.blank() ? Optional.of(place) : placed(mapping.word(what, cell.text()), place);
        if (there.isEmpty()) {
          gathered.note(
              where
                  + ": "
                  + what.word()
                  + " "
                  + FaultWords.quote(cell.text())
                  + " means nothing by the mapping; passed over.");
          return;
        }
        place = there.get();
      } else {
        said.add(Map.entry(meaning, cell));
      }
    }
    for (Map.Entry<Meaning, Cell> one : said) {
      take(tooth, place, one.getKey(), one.getValue(), where);
    }
  }

  /** As spreadsheets write whole numbers. */
  private static String number(String tooth) {
    return tooth.strip().replaceFirst("^0(?=[0-9])", "").replaceFirst("[.,]0+$", "");
  }

  private static Optional<Meaning> placed(String word, Meaning so) {
    return Meaning.of(word).filter(meaning -> meaning.what() == null).flatMap(so::and);
  }

  private void take(
      @Nullable Tooth tooth, Meaning place, Meaning meaning, Cell cell, String where) {
    What what = meaning.what();
    if (what == null) {
      return;
    }
    if (!what.ofSite() && !what.ofTooth()) {
      gathered.fact(what, cell.text(), where);
    } else if (tooth == null) {
      return;
    } else if (what.ofTooth()) {
      gathered.fact(tooth, what, cell.text(), where);
    } else {
      Meaning whole = place.and(meaning).orElse(meaning);
      if (whole.aspect() == null || whole.place() == null) {
        if (!cell.blank()) {
          gathered.note(where + ": which site a " + what.word() + " is of is not said; left open.");
        }
        return;
      }
      gathered.site(tooth, whole.aspect(), whole.place().of(tooth), what, cell.text(), where);
    }
  }
}

package quadrille.facts.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
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
    List<String> teeth = columns(table, mapping, What.TOOTH);
    if (teeth.size() != 1) {
      faults.add(
          header,
          (teeth.isEmpty() ? "no column that means" : teeth.size() + " columns that mean")
              + " tooth",
          "one, by the mapping");
    }
    for (What one : List.of(What.CASE, What.CHARTED)) {
      List<String> cells = cells(table, mapping, one);
      if (cells.size() > 1) {
        faults.add(
            header,
            FaultWords.quote(cells.get(0))
                + " and "
                + FaultWords.quote(cells.get(1))
                + " as "
                + one.word(),
            "a table of one mouth and one day");
      }
    }
    Numbering numbering = mapping.numbering();
    if (numbering == null) {
      faults.add(header, "no numbering", "iso3950 or universal, said by the mapping");
    } else if (teeth.size() == 1) {
      otherwiseNumbered(table, teeth.get(0), numbering, faults);
    }
    faults.check();
    TableChart chart = new TableChart(mapping, numbering == null ? Numbering.ISO3950 : numbering);
    if (numberings(cells(table, mapping, What.TOOTH)).size() > 1) {
      chart.gathered.note(
          "Each tooth is one by either numbering; they are read as "
              + chart.numbering.word()
              + ", as the mapping says.");
    }
    table.rows().forEach(chart::row);
    return chart.gathered.chart(chart.numbering);
  }

  /** A table says by its own teeth if it is numbered otherwise; the wrong teeth are never read. */
  private static void otherwiseNumbered(
      CsvTable table, String column, Numbering numbering, Faults faults) {
    table.rows().stream()
        .map(row -> row.cell(column))
        .filter(cell -> numbering.tooth(number(cell.text())).isEmpty())
        .filter(cell -> !by(cell.text()).isEmpty())
        .findFirst()
        .ifPresent(
            cell ->
                faults.add(
                    cell.place(),
                    FaultWords.quote(cell.text()) + ", a tooth of another numbering",
                    "teeth by " + numbering.word() + ", as the mapping says"));
  }

  /** The numberings by which all of some names are teeth, those that are none by any left out. */
  static List<Numbering> numberings(List<String> names) {
    return Stream.of(Numbering.values())
        .filter(
            one ->
                names.stream()
                    .map(TableChart::by)
                    .allMatch(known -> known.isEmpty() || known.contains(one)))
        .toList();
  }

  private static List<Numbering> by(String name) {
    return Stream.of(Numbering.values())
        .filter(one -> one.tooth(number(name)).isPresent())
        .toList();
  }

  /** A table's columns of a meaning. */
  private static List<String> columns(CsvTable table, Mapping mapping, What what) {
    return table.rows().get(0).cells().keySet().stream()
        .filter(
            column -> {
              Meaning meaning = mapping.columns().get(column);
              return meaning != null && meaning.what() == what;
            })
        .toList();
  }

  /** What stands in a table's columns of a meaning, each once. */
  static List<String> cells(CsvTable table, Mapping mapping, What what) {
    return columns(table, mapping, what).stream()
        .flatMap(column -> table.rows().stream().map(row -> row.cell(column).text()))
        .filter(cell -> !cell.isBlank())
        .distinct()
        .toList();
  }

  private void row(Row row) {
    String where = "Line " + row.place().line();
    @Nullable Tooth tooth = null;
    boolean nameless = false;
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
        nameless = cell.blank();
        // It is there, whatever can be said of it.
        Optional.ofNullable(tooth).ifPresent(gathered::tooth);
        if (tooth == null && !nameless) {
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
    if (nameless
        && said.stream().anyMatch(one -> one.getKey().ofMouth() && !one.getValue().blank())) {
      gathered.note(where + ": no tooth is named; what it says of one is passed over.");
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
      // Where row and column contradict each other, neither is believed.
      Meaning whole = place.and(meaning).orElse(new Meaning(what, null, null));
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

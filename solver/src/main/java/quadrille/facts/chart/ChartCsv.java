package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import quadrille.document.CsvTable;
import quadrille.document.CsvTable.Cell;
import quadrille.document.CsvTable.Row;
import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.document.Node;
import quadrille.document.Place;

/**
 * Puts a table's cells together as the JSON shape has them, so that one set of rules serves both.
 */
final class ChartCsv {

  private static final List<String> ASPECTS = List.of("facial", "lingual");
  private static final List<String> SITES = List.of("Distal", "Middle", "Mesial");
  private static final List<String> MEASURES = List.of("depth", "recession", "bleeding");
  private static final List<String> SITE_COLUMNS =
      MEASURES.stream().flatMap(measure -> SITES.stream().map(site -> measure + site)).toList();
  static final List<String> COLUMNS =
      Stream.of(List.of("tooth", "aspect"), ChartReader.TOOTH_FACTS, SITE_COLUMNS)
          .flatMap(List::stream)
          .toList();
  private static final List<String> REQUIRED =
      List.of("tooth", "aspect", "deposit", "depthDistal", "depthMiddle", "depthMesial");
  private static final List<String> DOCUMENT_FACTS =
      List.of("schema", "case", "charted", "numbering", "wishes");
  private static final List<String> FACTS =
      Stream.of(DOCUMENT_FACTS, ChartReader.PATIENT_FACTS).flatMap(List::stream).toList();

  /** The history was taken and has no alert. */
  static final String NO_ALERTS = "none";

  private static final List<String> TRUTHS = List.of("bleeding", "wishesNumbness");
  private static final Pattern DECIMAL_COMMA = Pattern.compile("^(-?[0-9]{1,9}),([0-9]{1,9})$");

  private final Faults faults;

  private ChartCsv(Faults faults) {
    this.faults = faults;
  }

  static Node read(String source, String text, Faults faults) throws InvalidDocumentException {
    CsvTable table = CsvTable.read(source, text, FACTS, COLUMNS, REQUIRED, faults);
    return new ChartCsv(faults).root(new Place(source, 1, 1, ""), table);
  }

  private Node root(Place place, CsvTable table) {
    Map<String, Node> top = new LinkedHashMap<>();
    top.put("schema", Node.ofText(faults, place, ChartReader.SCHEMA));
    for (String required : List.of("case", "numbering")) {
      if (!table.facts().containsKey(required)) {
        faults.add(place, "no line \"# " + required + ": …\"", "one in front of the header");
        top.put(required, Node.standIn(faults, place));
      }
    }
    Map<String, Node> patient = new LinkedHashMap<>();
    table
        .facts()
        .forEach(
            (key, cell) -> {
              if (cell.blank() && !key.equals("case") && !key.equals("numbering")) {
                // As a blank cell: not given.
                return;
              }
              if (DOCUMENT_FACTS.contains(key)) {
                top.put(key, Node.ofText(faults, cell.place(), cell.text()));
              } else if (key.equals("alerts")) {
                patient.put(key, alerts(cell));
              } else if (key.equals("notes")) {
                patient.put(key, Node.ofText(faults, cell.place(), cell.text()));
              } else {
                patient.put(key, cell(cell.place(), said(key, cell.text())));
              }
            });
    top.put("patient", Node.ofMembers(faults, place, patient));
    top.put("teeth", Node.ofElements(faults, place, teeth(table.rows())));
    return Node.ofMembers(faults, place, top);
  }

  /** The teeth in the order of their first rows. */
  private List<Node> teeth(List<Row> rows) {
    Map<String, List<Row>> byTooth = new LinkedHashMap<>();
    for (Row row : rows) {
      Cell tooth = row.cell("tooth");
      if (tooth.blank() && row.whole()) {
        faults.add(tooth.place(), "a blank cell", "a tooth");
      } else if (!tooth.blank()) {
        byTooth.computeIfAbsent(tooth.text(), key -> new ArrayList<>()).add(row);
      }
    }
    return byTooth.values().stream().map(this::tooth).toList();
  }

  private Node tooth(List<Row> every) {
    List<Row> whole = every.stream().filter(Row::whole).toList();
    List<Row> rows = whole.isEmpty() ? every : whole;
    Map<String, Node> members = new LinkedHashMap<>();
    Cell code = rows.get(0).cell("tooth");
    members.put("tooth", Node.ofText(faults, code.place(), code.text()));
    for (String fact : ChartReader.TOOTH_FACTS) {
      fact(fact, whole, members);
    }
    Node status = members.get("status");
    boolean mayBeUncharted =
        status != null
            && (status.is(ToothStatus.MISSING.word())
                || status.is(ToothStatus.PLANNED_EXTRACTION.word()));
    Map<String, Row> byAspect = new LinkedHashMap<>();
    boolean broken = whole.size() < every.size();
    for (Row row : whole) {
      Cell aspect = row.cell("aspect");
      boolean charted = SITE_COLUMNS.stream().anyMatch(column -> !row.cell(column).blank());
      if (!ASPECTS.contains(aspect.text()) && (!aspect.blank() || charted || !mayBeUncharted)) {
        String found = aspect.blank() ? "a blank cell" : FaultWords.quote(aspect.text());
        faults.add(aspect.place(), found, FaultWords.either(ASPECTS, aspect.text()));
        broken = true;
        continue;
      }
      Row first = byAspect.putIfAbsent(aspect.text(), row);
      if (first != null) {
        faults.add(
            row.place(),
            ("tooth " + FaultWords.quote(code.text()) + " " + aspect.text()).strip()
                + " a second time (first at "
                + first.place()
                + ")",
            "each aspect of a tooth once");
      } else if (!aspect.blank() && (charted || !mayBeUncharted)) {
        members.put(aspect.text(), aspect(row));
      }
    }
    Place place = rows.get(0).place();
    if (broken) {
      // What the broken row may have said is not missed as well.
      Stream.of(List.of("status", "deposit"), ASPECTS)
          .flatMap(List::stream)
          .forEach(key -> members.putIfAbsent(key, Node.standIn(faults, place)));
    }
    return Node.ofMembers(faults, place, members);
  }

  /** What concerns the tooth may stand in either row; where it stands in both they must agree. */
  private void fact(String fact, List<Row> rows, Map<String, Node> members) {
    List<Cell> cells =
        rows.stream().map(row -> row.cell(fact)).filter(cell -> !cell.blank()).toList();
    if (cells.isEmpty()) {
      return;
    }
    Cell first = cells.get(0);
    members.put(fact, fact.equals("features") ? words(first) : cell(first.place(), first.text()));
    for (Cell other : cells.subList(1, cells.size())) {
      if (!sorted(other).equals(sorted(first))) {
        faults.add(
            other.place(),
            FaultWords.quote(other.text()),
            FaultWords.quote(first.text()) + " as on line " + first.place().line() + ", or blank");
      }
    }
  }

  private static List<String> sorted(Cell cell) {
    return Arrays.stream(cell.text().split("[\\s,]+")).sorted().toList();
  }

  /** A blank line says nothing, so a history without alerts has a word of its own. */
  private Node alerts(Cell cell) {
    return cell.text().strip().equals(NO_ALERTS)
        ? Node.ofElements(faults, cell.place(), List.of())
        : words(cell);
  }

  /** A number may have a decimal comma, as many spreadsheets write it. */
  private Node cell(Place place, String text) {
    return Node.ofCell(faults, place, DECIMAL_COMMA.matcher(text).replaceFirst("$1.$2"));
  }

  /** What is true or false may be ticked, or be 1 or 0. */
  private static String said(String measure, String cell) {
    if (!TRUTHS.contains(measure)) {
      return cell;
    }
    return switch (cell) {
      case "1", "x", "X" -> "true";
      case "0" -> "false";
      default -> cell;
    };
  }

  private Node words(Cell cell) {
    List<Node> words =
        Arrays.stream(cell.text().split("[\\s,]+"))
            .filter(word -> !word.isEmpty())
            .map(word -> Node.ofText(faults, cell.place(), word))
            .toList();
    return Node.ofElements(faults, cell.place(), words);
  }

  private Node aspect(Row row) {
    Map<String, Node> members = new LinkedHashMap<>();
    members.put("depthMm", sites(row, "depth", ""));
    members.put("recessionMm", sites(row, "recession", "0"));
    members.put("bleeding", sites(row, "bleeding", "false"));
    return Node.ofMembers(faults, row.place(), members);
  }

  private Node sites(Row row, String measure, String blank) {
    List<Node> sites =
        SITES.stream()
            .map(site -> row.cell(measure + site))
            .map(cell -> cell(cell.place(), cell.blank() ? blank : said(measure, cell.text())))
            .toList();
    return Node.ofElements(faults, row.place(), sites);
  }
}

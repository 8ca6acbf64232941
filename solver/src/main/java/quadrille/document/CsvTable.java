package quadrille.document;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.dataformat.csv.CsvFactory;
import com.fasterxml.jackson.dataformat.csv.CsvParser;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * A table of values separated by commas (RFC 4180), semicolons or tabs, whichever its header has,
 * whose cells know their place. Lines {@code # key: value} may stand in front of the header. Blank
 * lines are passed over, and so are the empty cells with which spreadsheets fill a line up.
 *
 * @param facts what stands in front of the header, by key
 * @param rows the rows under the header
 */
public record CsvTable(Map<String, Cell> facts, List<Row> rows) {

  private static final CsvFactory FACTORY =
      CsvFactory.builder()
          .enable(CsvParser.Feature.WRAP_AS_ARRAY)
          .enable(CsvParser.Feature.TRIM_SPACES)
          .streamReadConstraints(JsonDocument.CONSTRAINTS)
          .build();

  private static final Pattern START_OF_FACT = Pattern.compile("[\\s\"]*#");

  /** A cell, without the spaces around it; its place names the column, or the key. */
  public record Cell(Place place, String text) {

    public boolean blank() {
      return text.isBlank();
    }
  }

  /**
   * A row.
   *
   * @param place its line
   * @param cells by column, in the header's order
   * @param whole whether it has as many cells as the header; if not, a fault says so, and no cell
   *     can be trusted to stand in its column
   */
  public record Row(Place place, Map<String, Cell> cells, boolean whole) {

    /** The cell of a column, blank where the header does not have it. */
    public Cell cell(String column) {
      Cell cell = cells.get(column);
      return cell != null
          ? cell
          : new Cell(new Place(place.source(), place.line(), place.column(), column), "");
    }
  }

  /**
   * Reads a table.
   *
   * @param source the document's name, for faults
   * @param text the table; a byte order mark in front is passed over
   * @param keys the keys that may stand in front of the header
   * @param columns the columns that the header may have, in any order
   * @param required those that it must have
   * @param faults takes what is found
   * @throws InvalidDocumentException where no row can be read: no table at all, or no such columns
   */
  public static CsvTable read(
      String source,
      String text,
      List<String> keys,
      List<String> columns,
      List<String> required,
      Faults faults)
      throws InvalidDocumentException {
    String bare = text.startsWith("\uFEFF") ? text.substring(1) : text;
    char separator = separator(bare);
    List<List<Cell>> lines = lines(source, bare, separator);
    Map<String, Cell> facts = new LinkedHashMap<>();
    int at = 0;
    while (at < lines.size() && lines.get(at).get(0).text().startsWith("#")) {
      fact(lines.get(at), separator, keys, facts, faults);
      at++;
    }
    if (at == lines.size()) {
      faults.add(
          new Place(source, 1, 1, ""),
          lines.isEmpty() ? JsonDocument.EMPTY : "no header",
          "a header with " + FaultWords.all(required));
      throw new InvalidDocumentException(faults.list());
    }
    List<String> header = header(lines.get(at), columns, required, faults);
    return new CsvTable(facts, rows(source, header, lines.subList(at + 1, lines.size()), faults));
  }

  private static List<Row> rows(
      String source, List<String> header, List<List<Cell>> lines, Faults faults) {
    List<Row> rows = new ArrayList<>();
    for (List<Cell> line : lines) {
      Place place = bare(line.get(0).place());
      boolean whole = fits(line, header.size());
      if (!whole) {
        faults.add(
            place, counted(line.size()), counted(header.size()) + ", as many as the header has");
      }
      Map<String, Cell> cells = new LinkedHashMap<>();
      for (int column = 0; column < Math.min(header.size(), line.size()); column++) {
        Cell cell = line.get(column);
        Place within =
            new Place(source, cell.place().line(), cell.place().column(), header.get(column));
        cells.putIfAbsent(header.get(column), new Cell(within, cell.text()));
      }
      rows.add(new Row(place, cells, whole));
    }
    return List.copyOf(rows);
  }

  /**
   * Reads a table with columns of its own, whose first line is its header; nothing stands in front.
   *
   * @param source the document's name, for faults
   * @param faults takes what is found; a row that is not as long as the header is passed over
   * @return a table with one row or more
   * @throws InvalidDocumentException where no row can be read
   */
  public static CsvTable any(String source, String text, Faults faults)
      throws InvalidDocumentException {
    String bare = text.startsWith("\uFEFF") ? text.substring(1) : text;
    String first = bare.lines().filter(line -> !line.isBlank()).findFirst().orElse("");
    List<List<Cell>> lines = lines(source, bare, between(first));
    if (lines.size() < 2) {
      faults.add(
          new Place(source, 1, 1, ""),
          lines.isEmpty() ? JsonDocument.EMPTY : "no row under the header",
          "a header and rows");
      throw new InvalidDocumentException(faults.list());
    }
    List<String> columns = lines.get(0).stream().map(Cell::text).toList();
    List<String> header = header(lines.get(0), columns, List.of(), faults);
    List<Row> rows = rows(source, header, lines.subList(1, lines.size()), faults);
    faults.check();
    return new CsvTable(Map.of(), rows);
  }

  private static String counted(int cells) {
    return cells == 1 ? "1 cell" : cells + " cells";
  }

  /** Fewer cells may mean that the file was cut short; more are harmless where they are blank. */
  private static boolean fits(List<Cell> line, int width) {
    return line.size() >= width && line.subList(width, line.size()).stream().allMatch(Cell::blank);
  }

  private static Place bare(Place place) {
    return new Place(place.source(), place.line(), place.column(), "");
  }

  private static void fact(
      List<Cell> line, char separator, List<String> keys, Map<String, Cell> facts, Faults faults) {
    String between = Character.toString(separator);
    String whole =
        line.stream()
            .map(Cell::text)
            .collect(Collectors.joining(between))
            .replaceFirst(between + "*$", "");
    Place place = line.get(0).place();
    int colon = whole.indexOf(':');
    if (colon < 0) {
      faults.add(bare(place), FaultWords.quote(whole), "a line \"# key: value\"");
      return;
    }
    String key = whole.substring(1, colon).strip();
    Place named = new Place(place.source(), place.line(), 1, FaultWords.plain(key, 60));
    if (!keys.contains(key)) {
      faults.add(named, "key " + FaultWords.quote(key), FaultWords.either(keys, key));
    } else if (facts.containsKey(key)) {
      int first = facts.get(key).place().line();
      faults.add(
          named,
          "key " + FaultWords.quote(key) + " a second time (first on line " + first + ")",
          "each key once");
    } else {
      facts.put(key, new Cell(named, whole.substring(colon + 1).strip()));
    }
  }

  private static List<String> header(
      List<Cell> line, List<String> columns, List<String> required, Faults faults)
      throws InvalidDocumentException {
    List<Cell> cells = new ArrayList<>(line);
    while (cells.get(cells.size() - 1).blank()) {
      cells.remove(cells.size() - 1);
    }
    Place place = bare(cells.get(0).place());
    List<String> header = new ArrayList<>();
    Set<String> known = new HashSet<>();
    for (Cell cell : cells) {
      String name = cell.text();
      Place named =
          new Place(
              place.source(),
              cell.place().line(),
              cell.place().column(),
              FaultWords.plain(name, 60));
      if (!columns.contains(name) && faults.full()) {
        faults.count();
      } else if (!columns.contains(name)) {
        faults.add(named, "column " + FaultWords.quote(name), FaultWords.either(columns, name));
      } else if (!known.add(name)) {
        faults.add(
            named, "column " + FaultWords.quote(name) + " a second time", "each column once");
      }
      header.add(name);
    }
    List<String> missing = required.stream().filter(column -> !header.contains(column)).toList();
    for (String column : missing) {
      faults.add(
          place,
          "no column " + FaultWords.quote(column),
          "a header with " + FaultWords.all(required));
    }
    if (!missing.isEmpty()) {
      // Without the column every row would be at fault, or worse, taken to say nothing.
      throw new InvalidDocumentException(faults.list());
    }
    return header;
  }

  /** What the header has between its cells. */
  private static char separator(String text) {
    String header =
        text.lines()
            .filter(line -> !line.isBlank() && !START_OF_FACT.matcher(line).lookingAt())
            .findFirst()
            .orElse("");
    return between(header);
  }

  private static char between(String header) {
    return header.indexOf('\t') >= 0 ? '\t' : header.indexOf(';') >= 0 ? ';' : ',';
  }

  /** The cells of every line that is not blank. */
  private static List<List<Cell>> lines(String source, String bare, char separator)
      throws InvalidDocumentException {
    List<List<Cell>> lines = new ArrayList<>();
    try (CsvParser parser = FACTORY.createParser(bare)) {
      parser.setSchema(CsvSchema.emptySchema().withColumnSeparator(separator));
      List<Cell> line = new ArrayList<>();
      try {
        for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
          if (token == JsonToken.VALUE_STRING) {
            JsonLocation at = parser.currentTokenLocation();
            Place place = new Place(source, at.getLineNr(), at.getColumnNr(), "");
            line.add(new Cell(place, parser.getText().strip()));
          } else if (token == JsonToken.END_ARRAY) {
            if (!line.stream().allMatch(Cell::blank)) {
              lines.add(line);
            }
            line = new ArrayList<>();
          }
        }
      } catch (StreamConstraintsException beyond) {
        throw new InvalidDocumentException(
            List.of(
                new Fault(
                    source,
                    "a table too large",
                    "at most " + JsonDocument.MOST_VALUES + " cells")));
      } catch (JsonProcessingException wrong) {
        // A quote that is never closed runs to the end of the file; its own line helps more.
        JsonLocation at = parser.currentTokenLocation();
        int row = line.isEmpty() ? at.getLineNr() : line.get(line.size() - 1).place().line();
        throw new InvalidDocumentException(
            List.of(
                new Fault(
                    new Place(source, Math.max(1, row), 1, "").toString(),
                    JsonDocument.reason(wrong.getOriginalMessage()),
                    "comma-separated values (RFC 4180), or semicolons or tabs between them")));
      }
    } catch (IOException impossible) {
      // The text is in memory.
      throw new UncheckedIOException(impossible);
    }
    return lines;
  }
}

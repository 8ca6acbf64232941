package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.StreamSupport;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Reads the pages against the plan file, number by number. */
final class PageNumbersTest {

  private static final double TINY = 1e-9;

  /** Every sample: both numberings, implants, sites not probed, work held back, 1 to 4 visits. */
  @ParameterizedTest
  @MethodSource("quadrille.cli.render.page.Sample#names")
  void pagesSayWhatThePlanSays(String name) throws Exception {
    Sample sample = Sample.of(name);
    Dom page = Dom.of(sample.html());
    glance(sample, page.one("//section[@id='chairside']"));
    map(sample, page);
    for (JsonNode visit : sample.json().get("visits")) {
      Dom sheet = page.one("//article[@aria-labelledby='visit-" + visit.get("visit") + "']");
      headline(visit, sheet);
      strip(visit, sheet);
      sequence(visit, sheet);
      doses(visit, sheet);
      lists(visit, sheet);
    }
    held(sample, page);
    desk(sample, page.one("//section[@id='desk']"));
    patient(sample, page.one("//section[@id='patient']"));
  }

  private static void glance(Sample sample, Dom page) {
    List<Dom> rows = page.all(Dom.ofClass(".//table", "glance") + "/tbody/tr");
    JsonNode visits = sample.json().get("visits");
    assertEquals(visits.size(), rows.size());
    for (int i = 0; i < rows.size(); i++) {
      JsonNode visit = visits.get(i);
      List<String> cells = rows.get(i).cells();
      assertEquals(
          List.of(
              visit.get("visit").asText(),
              visit.get("bookedMinutes").asText() + " min",
              clock(visit.get("expectedMinutes")),
              percent(visit.get("overrunRisk").asDouble()),
              Integer.toString(visit.get("injections").size()),
              visit.get("cartridges").asText(),
              visit.get("doses").isEmpty() ? "–" : percent(shares(visit)),
              visit.get("tipChanges").asText()),
          List.of(
              cells.get(0),
              cells.get(2),
              cells.get(3),
              cells.get(4),
              cells.get(5),
              cells.get(6),
              cells.get(7),
              cells.get(8)));
      assertEquals(side(visit), cells.get(1));
      if (sample.name().equals("typical")) {
        assertEquals(String.join(", ", texts(visit.get("areas"))), cells.get(9));
      }
    }
    JsonNode totals = sample.json().get("totals");
    assertEquals(
        List.of(
            "All",
            "",
            totals.get("bookedMinutes").asText() + " min",
            clock(totals.get("chairMinutes")),
            "",
            totals.get("injections").asText(),
            totals.get("cartridges").asText(),
            "",
            totals.get("tipChanges").asText(),
            ""),
        page.one(Dom.ofClass(".//table", "glance") + "/tfoot/tr").cells());
    assertEquals(
        texts(sample.json().get("assumptions")),
        page.all(Dom.ofClass(".//div", "assumptions") + "//li").stream().map(Dom::text).toList());
  }

  /** Every area exactly once for each of its passes, with the visit that the sequence has. */
  private static void map(Sample sample, Dom page) {
    SortedSet<String> expected = new TreeSet<>();
    for (JsonNode visit : sample.json().get("visits")) {
      for (JsonNode entry : visit.get("sequence")) {
        if (entry.get("do").asText().equals("debride")) {
          expected.add(
              entry.get("area").asText()
                  + "/"
                  + entry.get("pass").asText()
                  + "/"
                  + visit.get("visit"));
        }
      }
    }
    List<String> drawn =
        page.all(Dom.ofClass("//*", "mouth-map") + Dom.ofClass("//*", "band")).stream()
            .filter(band -> !band.attribute("data-visit").equals("0"))
            .map(
                band ->
                    band.attribute("data-area")
                        + "/"
                        + band.attribute("data-pass")
                        + "/"
                        + band.attribute("data-visit"))
            .toList();
    assertEquals(List.copyOf(expected), drawn.stream().sorted().toList());
    List<String> plates =
        page.all(Dom.ofClass("//*", "plate")).stream().map(Dom::text).sorted().toList();
    List<String> words =
        expected.stream()
            .map(band -> band.split("/"))
            .map(
                band ->
                    band[1].replace("finishing", "finish").replace("implant-care", "implant")
                        + " "
                        + band[2])
            .sorted()
            .toList();
    assertEquals(words, plates.stream().filter(plate -> !plate.endsWith("held")).toList());
  }

  private static void headline(JsonNode visit, Dom sheet) {
    String words = sheet.one(Dom.ofClass(".//p", "headline")).text();
    assertEquals(
        side(visit)
            + " · "
            + visit.get("bookedMinutes").asText()
            + " min booked · "
            + clock(visit.get("expectedMinutes"))
            + " expected · "
            + percent(visit.get("overrunRisk").asDouble())
            + " risk",
        words);
  }

  /** Drawn widths are the minutes of the sequence, and the blocks leave no gap. */
  private static void strip(JsonNode visit, Dom sheet) {
    Dom picture = sheet.one(Dom.ofClass(".//*", "visit-strip"));
    double scale = picture.number("data-units-per-minute");
    List<Dom> blocks = picture.all(Dom.ofClass(".//*", "block"));
    JsonNode sequence = visit.get("sequence");
    assertEquals(sequence.size(), blocks.size());
    double end = 14;
    for (int i = 0; i < blocks.size(); i++) {
      JsonNode entry = sequence.get(i);
      Dom paper = blocks.get(i).one(Dom.ofClass("*", "paper"));
      assertTrue(
          blocks
              .get(i)
              .attribute("class")
              .startsWith(
                  "block " + entry.get("do").asText().replace("apply-gel", "inject") + " "));
      // The file rounds to hundredths of a minute, the picture to thousandths of a unit.
      assertEquals(entry.get("minutes").asDouble(), paper.number("width") / scale, 0.0101);
      assertEquals(entry.get("startMinute").asDouble(), (paper.number("x") - 14) / scale, 0.0051);
      assertEquals(end, paper.number("x"), 0.0021);
      end = paper.number("x") + paper.number("width");
    }
    assertEquals(visit.get("expectedMinutes").asDouble(), (end - 14) / scale, 0.0051);
    double booked = visit.get("bookedMinutes").asDouble();
    assertEquals(
        booked, picture.one(Dom.ofClass(".//*", "reserve")).number("width") / scale, 0.001);
    double numb =
        picture.all(Dom.ofClass(".//*", "numb")).stream()
            .mapToDouble(bar -> bar.number("width") / scale)
            .sum();
    double needed = 0;
    for (JsonNode entry : sequence) {
      if (entry.path("needsNumb").asBoolean()) {
        needed += entry.get("minutes").asDouble();
      }
    }
    assertEquals(needed, numb, 0.01 * sequence.size());
  }

  /** Each entry stands in the table with its start and its length, a move in its step's row. */
  private static void sequence(JsonNode visit, Dom sheet) {
    List<List<String>> expected = new ArrayList<>();
    String on = "";
    String move = "";
    String moveStart = "";
    for (JsonNode entry : visit.get("sequence")) {
      String start = clock(entry.get("startMinute"));
      String takes = length(entry);
      if (!move.isEmpty() && !entry.get("do").asText().equals("debride")) {
        expected.add(List.of(moveStart, move));
        move = "";
      }
      switch (entry.get("do").asText()) {
        case "reposition" -> {
          move = takes;
          moveStart = start;
        }
        case "change-tip" -> {
          on = entry.get("to").asText();
          expected.add(List.of(start, takes, on));
        }
        case "debride" -> {
          if (!entry.get("insert").asText().equals(on)) {
            on = entry.get("insert").asText();
            expected.add(List.of("", "", on));
          }
          expected.add(
              List.of(
                  start,
                  takes,
                  move,
                  pass(entry),
                  entry.get("aspect").asText(),
                  String.join(" ", texts(entry.get("teeth"))),
                  entry.get("power").asText(),
                  entry.get("needsNumb").asBoolean() ? "numb" : ""));
          move = "";
        }
        default -> expected.add(List.of(start, takes));
      }
    }
    List<Dom> rows = sheet.all(Dom.ofClass(".//table", "sequence") + "/tbody/tr");
    List<List<String>> shown = new ArrayList<>();
    for (Dom row : rows) {
      List<String> cells = row.cells();
      switch (row.attribute("class")) {
        case "insert" ->
            shown.add(List.of(cells.get(0), cells.get(1), row.one(".//th/bdi").text()));
        case "other" -> shown.add(List.of(cells.get(0), cells.get(1)));
        default ->
            shown.add(
                List.of(
                    cells.get(0),
                    cells.get(1),
                    cells.get(2),
                    cells.get(3),
                    cells.get(4).replace(" aspects", "").replaceAll(".* ", ""),
                    cells.get(5),
                    cells.get(6),
                    cells.get(7)));
      }
    }
    assertEquals(expected, shown);
  }

  private static void doses(JsonNode visit, Dom sheet) {
    List<Dom> given = sheet.all(Dom.ofClass(".//table", "injections") + "/tbody/tr");
    assertEquals(visit.get("injections").size(), given.size());
    for (int i = 0; i < given.size(); i++) {
      JsonNode injection = visit.get("injections").get(i);
      assertTrue(
          given
              .get(i)
              .cells()
              .get(0)
              .toLowerCase(java.util.Locale.ROOT)
              .startsWith(injection.get("injection").asText()));
      assertEquals(
          injection.get("ml").asDouble(), Double.parseDouble(given.get(i).cells().get(1)), TINY);
    }
    List<Dom> bars = sheet.all(Dom.ofClass(".//*", "dose-bar"));
    List<Dom> rows = sheet.all(Dom.ofClass(".//table", "doses") + "/tbody/tr[th]");
    assertEquals(rows.size(), bars.size());
    for (int i = 0; i < visit.get("doses").size(); i++) {
      JsonNode dose = visit.get("doses").get(i);
      Dom bar = bars.get(i);
      double drawn =
          bar.one(Dom.ofClass("*", "fill")).number("width")
              / bar.one(Dom.ofClass("*", "track")).number("width");
      assertEquals(dose.get("share").asDouble(), drawn, 0.0001);
      assertTrue(
          rows.get(i)
              .text()
              .contains(
                  number(dose.get("mg"))
                      + " of at most "
                      + number(dose.get("maxMg"))
                      + (dose.get("agent").asText().startsWith("pocket gel")
                          ? " cartridges"
                          : " mg")),
          rows.get(i).text());
      assertEquals(percent(dose.get("share").asDouble()), rows.get(i).cells().get(1));
    }
    if (visit.get("epinephrineMg").asDouble() > 0) {
      assertTrue(
          rows.get(rows.size() - 1)
              .text()
              .startsWith("Epinephrine" + number(visit.get("epinephrineMg")) + " of at most 0.2"),
          rows.get(rows.size() - 1).text());
    } else {
      assertFalse(sheet.text().contains("Epinephrine"));
    }
  }

  private static void lists(JsonNode visit, Dom sheet) {
    List<String> tray =
        sheet.all(Dom.ofClass(".//ul", "tray") + "/li[b]/bdi").stream().map(Dom::text).toList();
    assertEquals(texts(visit.get("tray")), tray);
    List<String> extras = new ArrayList<>();
    if (visit.get("sleeves").asInt() > 0) {
      extras.add(visit.get("sleeves").asText() + " new implant sleeve");
    }
    if (visit.get("gelCartridges").asDouble() > 0) {
      extras.add(opened(visit) + " cartridge");
    }
    List<Dom> shown = sheet.all(Dom.ofClass(".//li", "extra"));
    assertEquals(extras.size(), shown.size());
    for (int i = 0; i < shown.size(); i++) {
      String text = shown.get(i).text().replace('\u00a0', ' ');
      assertTrue(text.startsWith(extras.get(i)), text);
    }
    List<String> lines =
        sheet.all(Dom.ofClass(".//div", "side") + "//li").stream().map(Dom::text).toList();
    List<String> expected = new ArrayList<>(texts(visit.get("watch")));
    expected.addAll(texts(visit.get("cautions")));
    assertEquals(expected, lines);
  }

  private static void held(Sample sample, Dom pages) {
    List<String> expected = new ArrayList<>();
    for (JsonNode work : sample.json().get("heldBack")) {
      String before = work.get("area").asText() + ", " + work.get("pass").asText() + ", ";
      String after = ": " + String.join(" ", texts(work.get("teeth")));
      expected.add(before + work.get("aspect").asText() + after);
    }
    // Both aspects of the same teeth may share a line.
    for (String page : List.of("chairside", "desk")) {
      List<String> shown = new ArrayList<>();
      for (Dom line :
          pages.all("//section[@id='" + page + "']" + Dom.ofClass("//div", "held-back") + "//li")) {
        if (line.text().contains("facial and lingual")) {
          shown.add(line.text().replace("facial and lingual", "facial"));
          shown.add(line.text().replace("facial and lingual", "lingual"));
        } else {
          shown.add(line.text());
        }
      }
      assertEquals(expected.stream().sorted().toList(), shown.stream().sorted().toList(), page);
    }
  }

  private static void desk(Sample sample, Dom page) {
    JsonNode visits = sample.json().get("visits");
    List<Dom> rows = page.all(Dom.ofClass(".//table", "bookings") + "/tbody/tr");
    assertEquals(visits.size() + 1, rows.size());
    String gap =
        sample.json().at("/gapDays/min").asInt() + " to " + sample.json().at("/gapDays/max");
    for (int i = 0; i < visits.size(); i++) {
      JsonNode visit = visits.get(i);
      List<String> cells = rows.get(i).cells();
      assertEquals(visit.get("visit").asText(), cells.get(0));
      assertEquals(visit.get("bookedMinutes").asText(), cells.get(1));
      assertEquals(i == 0 ? "first" : gap + " days after visit " + i, cells.get(2));
      assertEquals(
          !visit.get("injections").isEmpty()
              ? "a clinician who may inject"
              : visit.get("gelCartridges").asDouble() > 0
                  ? "a clinician who may treat and use pocket gel; no injection"
                  : "a clinician who may treat; no injection",
          cells.get(3));
    }
    assertTrue(
        rows.get(visits.size())
            .text()
            .contains(
                sample.json().at("/reevaluateWeeks/from")
                    + " to "
                    + sample.json().at("/reevaluateWeeks/to")
                    + " weeks"));
    for (Dom supply : page.all(Dom.ofClass(".//table", "supplies") + "/tbody/tr")) {
      List<String> cells = supply.cells();
      for (int i = 0; i < visits.size(); i++) {
        assertEquals(supply(sample, cells.get(0), visits.get(i)), cells.get(i + 1), cells.get(0));
      }
      if (sample.practice().inserts().containsKey(cells.get(0))) {
        assertEquals(
            Integer.toString(sample.practice().inserts().get(cells.get(0)).sterileSets()),
            cells.get(visits.size() + 1));
      }
    }
    SortedSet<String> inserts = new TreeSet<>();
    visits.forEach(visit -> inserts.addAll(texts(visit.get("tray"))));
    assertEquals(
        inserts,
        new TreeSet<>(
            page.all(Dom.ofClass(".//table", "supplies") + "/tbody/tr").stream()
                .map(row -> row.cells().get(0))
                .filter(sample.practice().inserts()::containsKey)
                .toList()));
  }

  private static String supply(Sample sample, String name, JsonNode visit) {
    if (sample.practice().inserts().containsKey(name)) {
      return texts(visit.get("tray")).contains(name) ? "1" : "–";
    }
    String amount =
        name.startsWith("New implant sleeves")
            ? visit.get("sleeves").asText()
            : name.startsWith("Cartridges of pocket gel")
                ? opened(visit)
                : visit.get("cartridges").asText();
    return amount.equals("0") ? "–" : amount;
  }

  /** Whole cartridges of gel: what is left of one is thrown away. */
  private static String opened(JsonNode visit) {
    return new BigDecimal(visit.get("gelCartridges").asText())
        .setScale(0, RoundingMode.CEILING)
        .toPlainString();
  }

  private static void patient(Sample sample, Dom page) {
    JsonNode visits = sample.json().get("visits");
    List<Dom> rows = page.all(".//table/tbody/tr");
    assertEquals(visits.size(), rows.size());
    for (int i = 0; i < visits.size(); i++) {
      JsonNode visit = visits.get(i);
      String side = visit.get("numbSide").asText();
      assertEquals(
          List.of(
              visit.get("visit").asText(),
              visit.get("bookedMinutes").asText() + " minutes",
              numbForThePatient(side, visit.get("gelCartridges").asDouble() > 0),
              ""),
          rows.get(i).cells());
    }
    String text = page.text();
    if (visits.size() > 1) {
      assertTrue(text.contains("in " + visits.size() + " visits"));
      assertTrue(text.contains("7 to 14 days between one visit and the next"));
    }
    assertTrue(text.contains("6 to 12 weeks after the last visit"));
    for (String contact :
        List.of("DEMO practice", "1 Example Street", "555 0100", "desk@practice.example")) {
      assertTrue(text.contains(contact), contact);
    }
    for (String jargon :
        List.of("debride", "lingual", "posterior", "furcation", "insert", "mg", "cartridge")) {
      assertFalse(text.toLowerCase(java.util.Locale.ROOT).contains(jargon), jargon);
    }
  }

  private static String numbForThePatient(String side, boolean gel) {
    if (side.equals("none")) {
      return gel ? "Only the gum, with a gel and no needle" : "Nothing";
    }
    return "Your " + side + " side" + (gel ? ", and some gum with a gel" : "");
  }

  private static String side(JsonNode visit) {
    String side = visit.get("numbSide").asText();
    boolean gel = visit.get("gelCartridges").asDouble() > 0;
    if (side.equals("none")) {
      return gel ? "gel only" : "nothing numb";
    }
    return side + " side numb" + (gel ? ", and gel" : "");
  }

  private static double shares(JsonNode visit) {
    double sum = 0;
    for (JsonNode dose : visit.get("doses")) {
      sum += dose.get("share").asDouble();
    }
    return sum;
  }

  private static String percent(double share) {
    long percent = Math.round(100 * share);
    return percent == 0 && share > 0 ? "<1 %" : percent + " %";
  }

  /** Minutes of the file as minutes and seconds. */
  private static String clock(JsonNode minutes) {
    return clock(Math.round(60 * minutes.asDouble()));
  }

  /** Lengths are taken from starts, for the file rounds both. */
  private static String length(JsonNode entry) {
    double start = entry.get("startMinute").asDouble();
    long end = Math.round(60 * (start + entry.get("minutes").asDouble()));
    return clock(end - Math.round(60 * start));
  }

  private static String clock(long seconds) {
    return seconds / 60 + ":" + (seconds % 60 < 10 ? "0" : "") + seconds % 60;
  }

  private static String pass(JsonNode entry) {
    return switch (entry.get("pass").asText()) {
      case "gross" -> "Gross";
      case "fine" -> "Fine";
      case "finishing" -> "Finishing";
      default -> "Implant care";
    };
  }

  private static String number(JsonNode number) {
    BigDecimal value = new BigDecimal(number.asText());
    return (value.compareTo(BigDecimal.ONE) < 0
            ? value.setScale(4, RoundingMode.HALF_UP)
            : value.setScale(1, RoundingMode.HALF_UP))
        .stripTrailingZeros()
        .toPlainString();
  }

  private static List<String> texts(JsonNode array) {
    return StreamSupport.stream(array.spliterator(), false).map(JsonNode::asText).toList();
  }
}

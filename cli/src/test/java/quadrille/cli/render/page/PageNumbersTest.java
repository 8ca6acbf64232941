package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;

/** Reads the pages against the plan file, number by number. */
final class PageNumbersTest {

  private static final Pattern PASS_AND_TEETH = Pattern.compile("([a-z]+) \\(([0-9 ]+)\\)");

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
      depths(sample, visit, sheet);
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
              whole(visit.get("expectedMinutes")) + " min",
              risk(visit),
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
      // The column says that it is numb.
      assertEquals(
          side(visit).replace(" side numb", " side").replace("midline, numb", "midline"),
          cells.get(1));
      if (sample.name().equals("typical")) {
        assertEquals(String.join(", ", texts(visit.get("areas"))), cells.get(9));
      }
    }
    JsonNode totals = sample.json().get("totals");
    int expected = 0;
    for (JsonNode visit : visits) {
      expected += whole(visit.get("expectedMinutes"));
    }
    assertEquals(
        List.of(
            "All",
            "",
            totals.get("bookedMinutes").asText() + " min",
            expected + " min",
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
    // Neighbouring passes of an area that one visit does share a plate.
    List<String> order = List.of("gross", "fine", "finishing", "implant-care");
    List<List<String>> bands =
        expected.stream()
            .map(band -> List.of(band.split("/")))
            .sorted(
                Comparator.comparing((List<String> band) -> band.get(0))
                    .thenComparing(band -> order.indexOf(band.get(1)))
                    .thenComparing(band -> band.get(2)))
            .toList();
    List<String> words = new ArrayList<>();
    for (int i = 0; i < bands.size(); i++) {
      String pass = bands.get(i).get(1).replace("finishing", "finish").replace("-care", "");
      boolean shared =
          i > 0
              && bands.get(i).get(0).equals(bands.get(i - 1).get(0))
              && bands.get(i).get(2).equals(bands.get(i - 1).get(2));
      if (shared) {
        words.set(words.size() - 1, words.get(words.size() - 1).replace("visit", pass + "visit"));
      } else {
        words.add(pass + "visit " + bands.get(i).get(2));
      }
    }
    assertEquals(
        words.stream().sorted().toList(),
        page.all(Dom.ofClass("//*", "plate")).stream()
            .map(plate -> plate.text().replaceAll("[ ·,]+(?!\\d)", ""))
            .filter(plate -> !plate.contains("held"))
            .sorted()
            .toList());
  }

  private static void headline(JsonNode visit, Dom sheet) {
    String words = sheet.one(Dom.ofClass(".//p", "headline")).text();
    assertEquals(
        side(visit)
            + " · "
            + visit.get("bookedMinutes").asText()
            + " min booked · "
            + whole(visit.get("expectedMinutes"))
            + " min expected · "
            + risk(visit)
            + " risk of running over",
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
              .startsWith("block " + drawn(entry.get("do").asText()) + " "));
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

  /**
   * Each entry stands in the table in whole minutes, a move in its step's row; starts never go
   * back, and what the rows take adds up to the visit's expected minutes.
   */
  private static void sequence(JsonNode visit, Dom sheet) {
    List<List<String>> expected = new ArrayList<>();
    String on = "";
    JsonNode move = null;
    for (JsonNode entry : visit.get("sequence")) {
      if (move != null && !entry.get("do").asText().equals("debride")) {
        expected.add(List.of(start(move), takes(move, move)));
        move = null;
      }
      switch (entry.get("do").asText()) {
        case "reposition" -> move = entry;
        case "change-tip" -> {
          on = entry.get("to").asText();
          expected.add(List.of(start(entry), takes(entry, entry), on));
        }
        case "debride" -> {
          if (entry.has("test")) {
            // A line that the block is tested, which takes no time of its own.
            expected.add(List.of("", ""));
          }
          if (!entry.get("insert").asText().equals(on)) {
            on = entry.get("insert").asText();
            expected.add(List.of("", "", on));
          }
          JsonNode first = move == null ? entry : move;
          expected.add(
              List.of(
                  start(first),
                  takes(first, entry),
                  pass(entry),
                  entry.get("aspect").asText(),
                  String.join(" ", texts(entry.get("teeth"))),
                  entry.get("power").asText(),
                  entry.get("needsNumb").asBoolean() ? "numb" : ""));
          move = null;
        }
        default -> expected.add(List.of(start(entry), takes(entry, entry)));
      }
    }
    List<Dom> rows = sheet.all(Dom.ofClass(".//table", "sequence") + "/tbody/tr");
    List<List<String>> shown = new ArrayList<>();
    int sum = 0;
    int before = 0;
    for (Dom row : rows) {
      List<String> cells = row.cells();
      if (!cells.get(0).isEmpty()) {
        assertEquals(sum, Integer.parseInt(cells.get(0)), "starts where the row before it ended");
        assertTrue(Integer.parseInt(cells.get(0)) >= before);
        before = Integer.parseInt(cells.get(0));
        sum += cells.get(1).equals("<1") ? 0 : Integer.parseInt(cells.get(1));
      }
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
                    cells.get(3).replace(" aspects", "").replaceAll(".* ", ""),
                    cells.get(4),
                    cells.get(5),
                    numb(cells.get(6), cells.get(4))));
      }
    }
    assertEquals(expected, shown);
    assertEquals(whole(visit.get("expectedMinutes")), sum);
  }

  /** Without the teeth that ask for it, which are some of the step's. */
  private static String numb(String cell, String teeth) {
    if (!cell.startsWith("numb for")) {
      return cell;
    }
    List<String> some = List.of(cell.replace("numb for", "").strip().split("[\\s\u00a0]+"));
    List<String> all = List.of(teeth.split("[\\s\u00a0]+"));
    assertTrue(all.containsAll(some) && some.size() < all.size(), cell + " of " + teeth);
    return "numb";
  }

  /** The teeth of the visit's steps, each with what the chart has of its six sites. */
  private static void depths(Sample sample, JsonNode visit, Dom sheet) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    for (JsonNode entry : visit.get("sequence")) {
      texts(entry.path("teeth"))
          .forEach(name -> teeth.add(sample.chart().numbering().tooth(name).orElseThrow()));
    }
    List<String> expected = new ArrayList<>();
    for (Tooth tooth : teeth) {
      ToothChart charted = sample.chart().tooth(tooth).orElseThrow();
      StringBuilder line = new StringBuilder(sample.chart().numbering().name(tooth));
      for (Site site : charted.sites()) {
        line.append(' ').append(site.depthMm() == null ? "–" : site.depthMm());
        line.append(site.bleeding() ? "b" : "");
      }
      line.append(charted.implant() ? " implant" : "");
      line.append(charted.furcation() > 0 ? " f" + charted.furcation() : "");
      line.append(charted.mobility() > 0 ? " m" + charted.mobility() : "");
      expected.add(line.toString());
    }
    assertEquals(
        expected,
        sheet.all(Dom.ofClass(".//ul", "depths") + "/li").stream()
            .map(
                line ->
                    line
                        .all(".//b | .//span[@class='deep' or @class='depth' or @class='more']")
                        .stream()
                        .map(Dom::text)
                        .filter(text -> !text.isEmpty())
                        .collect(Collectors.joining(" ")))
            .toList());
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
    // Many cautions stand across the foot, in place of the side; there may be depths there too.
    List<String> lines = new ArrayList<>();
    for (String column : List.of("side", "below")) {
      sheet
          .all(Dom.ofClass(".//div", column) + "//li[not(parent::ul[@class='depths'])]")
          .forEach(one -> lines.add(one.text()));
    }
    List<String> expected = new ArrayList<>(texts(visit.get("watch")));
    // On a sheet each is a sentence of its own.
    texts(visit.get("cautions")).forEach(caution -> expected.add(Words.capital(caution)));
    assertEquals(expected, lines);
  }

  /** By area and pass, which teeth wait; both aspects of an area stand on one line. */
  private static void held(Sample sample, Dom pages) {
    Map<String, SortedSet<String>> expected = new TreeMap<>();
    for (JsonNode work : sample.json().get("heldBack")) {
      String pass = work.get("area").asText() + ", " + work.get("pass").asText();
      expected.computeIfAbsent(pass, key -> new TreeSet<>()).addAll(texts(work.get("teeth")));
    }
    for (String page : List.of("chairside", "desk")) {
      Map<String, SortedSet<String>> shown = new TreeMap<>();
      for (Dom line :
          pages.all("//section[@id='" + page + "']" + Dom.ofClass("//div", "held-back") + "//li")) {
        String area = line.text().substring(0, line.text().indexOf(": "));
        Matcher passes = PASS_AND_TEETH.matcher(line.text());
        while (passes.find()) {
          shown
              .computeIfAbsent(area + ", " + passes.group(1), key -> new TreeSet<>())
              .addAll(List.of(passes.group(2).split(" ")));
        }
      }
      assertEquals(expected, shown, page);
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
    String weeks =
        sample.json().at("/reevaluateWeeks/from")
            + " to "
            + sample.json().at("/reevaluateWeeks/to")
            + " weeks";
    boolean held = !sample.json().at("/heldBack").isEmpty();
    assertTrue(
        rows.get(visits.size()).text().contains(held ? "planned again first" : weeks),
        rows.get(visits.size())::text);
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
              "",
              visit.get("bookedMinutes").asText() + " minutes",
              where(visit)),
          rows.get(i).cells().subList(0, 4));
      assertTrue(
          rows.get(i)
              .cells()
              .get(4)
              .endsWith(
                  visit.get("numbFront").isEmpty()
                      ? numbForThePatient(side, visit.get("gelCartridges").asDouble() > 0)
                      : "Your " + side + " side, and the front of your mouth"));
      assertEquals(
          side.equals("none") ? 0 : 1,
          rows.get(i).all(Dom.ofClass(".//*", "numb-face") + "/*[@class='is-numb']").size());
    }
    String text = page.text();
    if (visits.size() > 1) {
      assertTrue(text.contains("in " + visits.size() + " visits"));
      assertTrue(text.contains("7 to 14 days between one visit and the next"));
    }
    boolean held = !sample.json().at("/heldBack").isEmpty();
    assertEquals(!held, text.contains("6 to 12 weeks after the last visit"));
    for (String contact :
        List.of("DEMO practice", "1 Example Street", "555 0100", "desk@practice.example")) {
      assertTrue(text.contains(contact), contact);
    }
    for (String jargon :
        List.of("debride", "lingual", "posterior", "furcation", "insert", "mg", "cartridge")) {
      assertFalse(text.toLowerCase(java.util.Locale.ROOT).contains(jargon), jargon);
    }
  }

  private static String where(JsonNode visit) {
    Map<String, String> words =
        Map.of("UR", "upper right", "UL", "upper left", "LL", "lower left", "LR", "lower right");
    List<String> quadrants =
        Stream.of("UR", "UL", "LL", "LR")
            .filter(q -> texts(visit.get("areas")).stream().anyMatch(area -> area.startsWith(q)))
            .map(words::get)
            .toList();
    return quadrants.size() == 4 ? "the whole mouth" : String.join(", ", quadrants);
  }

  private static String numbForThePatient(String side, boolean gel) {
    if (side.equals("none")) {
      return gel ? "Only the gum, with a gel and no needle" : "Nothing";
    }
    return "Your " + side + " side" + (gel ? ", and some gum with a gel" : "");
  }

  /** Gel is drawn like an injection, the frame like set-up, a look like waiting. */
  private static String drawn(String what) {
    return switch (what) {
      case "apply-gel" -> "inject";
      case "history", "blood-pressure", "consent", "rinse", "charting", "instruct", "probe" ->
          "setup";
      case "look" -> "wait";
      default -> what;
    };
  }

  private static String side(JsonNode visit) {
    String side = visit.get("numbSide").asText();
    boolean gel = visit.get("gelCartridges").asDouble() > 0;
    if (side.equals("none")) {
      return gel ? "gel only" : "nothing numb";
    }
    String front = visit.get("numbFront").isEmpty() ? "" : ", and the front across the midline,";
    return side + " side" + front + " numb" + (gel ? ", and gel" : "");
  }

  private static double shares(JsonNode visit) {
    double sum = 0;
    for (JsonNode dose : visit.get("doses")) {
      sum += dose.get("share").asDouble();
    }
    return sum;
  }

  /** Never none: the file rounds to four decimals. */
  private static String risk(JsonNode visit) {
    double risk = visit.get("overrunRisk").asDouble();
    return risk == 0 ? "<1 %" : percent(risk);
  }

  private static String percent(double share) {
    long percent = Math.round(100 * share);
    return percent == 0 && share > 0 ? "<1 %" : percent + " %";
  }

  /** The whole minute nearest to minutes of the file, which rounds to hundredths. */
  private static int whole(JsonNode minutes) {
    return whole(minutes.asDouble());
  }

  private static int whole(double minutes) {
    return (int) Math.round(Math.round(60 * minutes) / 60.0);
  }

  private static String start(JsonNode entry) {
    return Integer.toString(whole(entry.get("startMinute")));
  }

  private static String takes(JsonNode first, JsonNode last) {
    int end = whole(last.get("startMinute").asDouble() + last.get("minutes").asDouble());
    int minutes = end - whole(first.get("startMinute"));
    return minutes == 0 ? "<1" : Integer.toString(minutes);
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

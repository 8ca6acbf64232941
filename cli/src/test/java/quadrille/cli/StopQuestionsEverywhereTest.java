package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.Iterator;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.History;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;

/**
 * A person who reads any one sheet of the practice meets each stop question of the visits on it,
 * and meets it before the clock; a patient meets none. Mouths and alerts are drawn; what must be
 * asked is read from the practice's data here, without the planning.
 */
final class StopQuestionsEverywhereTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Practice PRACTICE = PracticeReader.defaults();
  private static final String HISTORY = "Take the medical history before anything is touched.";
  private static final Pattern VISIT_SHEET = Pattern.compile("<article class=\"sheet visit ");

  @TempDir private Path folder;

  private final List<String> asked = new ArrayList<>();
  private String chart = "";

  @ParameterizedTest
  @ValueSource(longs = {1, 4, 6})
  void everySheetOfThePracticeAsksAndNothingOfThePatientsDoes(long seed) throws IOException {
    String plan = path("plan.json");
    long next = seed;
    do {
      draw(next);
      next += 10;
    } while (Run.of("plan", chart, "--effort", "quick", "-o", plan, "--force").status() != 0);
    planned(plan);
    texts(plan);
    pages();
    underWay(plan);
    booked(plan);
  }

  private void draw(long seed) throws IOException {
    Random random = new Random(seed);
    asked.clear();
    Chart mouth =
        OneMouthTwoNumberingsTest.mouth(
            seed, seed % 2 == 0 ? Numbering.ISO3950 : Numbering.UNIVERSAL);
    Set<Alert> alerts = EnumSet.noneOf(Alert.class);
    boolean known = seed % 10 < 6;
    for (Alert alert : Alert.values()) {
      if (known && random.nextInt(12) == 0) {
        alerts.add(alert);
      }
    }
    History history = known ? History.of(alerts) : History.UNKNOWN;
    if (known && alerts.isEmpty()) {
      alerts.add(Alert.ENDOCARDITIS_RISK);
    }
    if (!known) {
      asked.add(HISTORY);
    }
    included(alerts).stream()
        .flatMap(alert -> PRACTICE.alertRule(alert).stream())
        .map(AlertRule::stopQuestions)
        .forEach(asked::addAll);
    String text = ChartWriter.json(mouth.withPatient(mouth.patient().withHistory(history)));
    // Where nothing may be injected, only what is shallow can be done.
    chart = write("chart.json", known ? text : text.replaceAll("(?<=[\\[ ])[4-9](?=[,\\]])", "3"));
  }

  /** The alerts, and those that they include. */
  private static Set<Alert> included(Set<Alert> alerts) {
    Set<Alert> all = new TreeSet<>(alerts);
    for (Alert alert : alerts) {
      PRACTICE
          .alertRule(alert)
          .ifPresent(rule -> all.addAll(included(Set.copyOf(rule.includes()))));
    }
    return all;
  }

  /** In the plan file each visit has its questions, before its sequence. */
  private void planned(String plan) throws IOException {
    assertFalse(asked.isEmpty(), "nothing is asked of this mouth");
    JsonNode root = JSON.readTree(Files.readString(Path.of(plan)));
    assertFalse(root.get("visits").isEmpty(), "no visit");
    for (JsonNode visit : root.get("visits")) {
      questions(visit);
      List<String> keys = new ArrayList<>();
      visit.fieldNames().forEachRemaining(keys::add);
      assertTrue(keys.indexOf("stopQuestions") < keys.indexOf("sequence"), keys.toString());
    }
  }

  private void texts(String plan) throws IOException {
    String text = quick("plan", chart);
    List<String> visits = List.of(text.split("(?m)^VISIT \\d+ of \\d+", -1));
    assertTrue(visits.size() > 1, text);
    for (String visit : visits.subList(1, visits.size())) {
      before(visit, "From Min");
    }
    before(quick("compare", chart, "--visits", "1-2"), "Chair Booked");
    JsonNode compared =
        JSON.readTree(quick("compare", chart, "--visits", "1-2", "--format", "json"));
    questions(compared);
    List<String> kits = List.of(Run.of("kit", plan).out().split("(?m)^MADE-UP", -1));
    for (String kit : kits.subList(1, kits.size())) {
      before(kit, "Inserts");
    }
    JSON.readTree(Run.of("kit", plan, "--format", "json").out())
        .get("visits")
        .forEach(this::questions);
  }

  private void pages() {
    String html = quick("plan", chart, "--format", "html");
    List<String> sections = List.of(html.split("<section id=", -1));
    assertEquals(4, sections.size());
    before(sections.get(1), "<svg");
    List<String> sheets = List.of(VISIT_SHEET.split(sections.get(1), -1));
    assertTrue(sheets.size() > 1);
    for (String sheet : sheets.subList(1, sheets.size())) {
      before(sheet, "<svg");
    }
    before(sections.get(2), "<table");
    nowhere(sections.get(3));
    nowhere(quick("plan", chart, "--format", "html", "--page", "patient", "--language", "de"));
    before(quick("compare", chart, "--visits", "1-2", "--format", "html"), "<table");
  }

  private void underWay(String plan) throws IOException {
    String course = path("course.ndjson");
    String at = "--at=2026-03-02T12:00:00+01:00";
    assertEquals(0, Run.of("record", course, "--start", plan, "--chart", chart, at).status());
    before(Run.of("record", course, "--show").out(), "Visit Day");
    JSON.readTree(Run.of("record", course, "--show", "--format", "json").out())
        .get("toCome")
        .forEach(this::questions);
    String html = Run.of("record", course, "--show", "--format", "html").out();
    List<String> sections = List.of(html.split("<section id=", -1));
    before(sections.get(1), "<table");
    nowhere(sections.get(2));
  }

  private void booked(String plan) throws IOException {
    String diary = path("diary.json");
    Files.copy(Path.of(Golden.demo("diary.json")), Path.of(diary));
    Files.copy(Path.of(Golden.demo("hanna.ics")), folder.resolve("hanna.ics"));
    String ours = path("ours.ics");
    String theirs = path("theirs.ics");
    String fhir = path("course.json");
    List<String> take = new ArrayList<>(List.of("book", plan, "--diary", diary, "--take", "1"));
    take.addAll(List.of("--from", "2026-03-09", "--until", "2026-07-01"));
    take.addAll(List.of("--ics-practice", ours, "--ics-patient", theirs, "--fhir", fhir));
    Run run = Run.of(take.toArray(String[]::new));
    assertEquals(0, run.status(), run.err());
    List<String> events = List.of(unfolded(ours).split("BEGIN:VEVENT", -1));
    assertTrue(events.size() > 1);
    for (String event : events.subList(1, events.size())) {
      String told = event.substring(event.indexOf("DESCRIPTION:"));
      assertTrue(plain(told).startsWith("DESCRIPTION:STOP: " + asked.get(0)), told);
      before(told, " minutes with ");
    }
    nowhere(unfolded(theirs));
    nowhere(Files.readString(Path.of(fhir)));
    week(diary);
  }

  private void week(String diary) throws IOException {
    JsonNode booking = null;
    String monday = "2026-03-09";
    for (int weeks = 0; booking == null && weeks < 16; weeks++) {
      String day = java.time.LocalDate.parse(monday).plusWeeks(weeks).toString();
      JsonNode week =
          JSON.readTree(Run.of("diary", diary, "--week", day, "--format", "json").out());
      for (JsonNode one : week.findValues("bookings").stream().flatMap(a -> all(a)).toList()) {
        if (one.get("case").asText().startsWith("MADE-UP")) {
          booking = one;
          questions(one);
          all(Run.of("diary", diary, "--week", day).out());
          all(Run.of("diary", diary, "--week", day, "--format", "html").out());
        }
      }
    }
    assertTrue(booking != null, "no week shows the visit");
  }

  private static java.util.stream.Stream<JsonNode> all(JsonNode array) {
    Iterator<JsonNode> nodes = array.elements();
    List<JsonNode> list = new ArrayList<>();
    nodes.forEachRemaining(list::add);
    return list.stream();
  }

  // ---- what a sheet says

  private void questions(JsonNode node) {
    List<String> said = new ArrayList<>();
    node.get("stopQuestions").forEach(one -> said.add(one.get("question").asText()));
    assertEquals(asked.size(), said.size(), said.toString());
    for (int i = 0; i < asked.size(); i++) {
      assertTrue(said.get(i).startsWith(asked.get(i)), said.toString());
    }
  }

  private void all(String sheet) {
    for (String question : asked) {
      assertTrue(plain(sheet).contains(plain(question)), () -> question + "\nin\n" + sheet);
    }
  }

  /** Every question stands there, and all stand before the clock. */
  private void before(String sheet, String clock) {
    String plain = plain(sheet);
    int at = plain.indexOf(clock);
    assertTrue(at > 0, () -> "no " + clock + " in\n" + sheet);
    for (String question : asked) {
      int found = plain.indexOf(plain(question));
      assertTrue(found >= 0 && found < at, () -> question + "\nbefore " + clock + " in\n" + sheet);
    }
  }

  private void nowhere(String sheet) {
    for (String question : asked) {
      assertFalse(plain(sheet).contains(plain(question)), () -> question + "\nin\n" + sheet);
    }
    assertFalse(sheet.contains("STOP"), sheet);
  }

  /** Lines are wrapped by width; pages and calendars escape. */
  private static String plain(String text) {
    return text.replace("&amp;", "&")
        .replace("&#39;", "'")
        .replace("&#34;", "\"")
        .replace("\\,", ",")
        .replace("\\;", ";")
        .replaceAll("[\\s\u00a0]+", " ");
  }

  private String unfolded(String file) throws IOException {
    return Files.readString(Path.of(file)).replace("\r\n ", "");
  }

  private static String quick(String... args) {
    List<String> all = new ArrayList<>(List.of(args));
    all.addAll(List.of("--effort", "quick"));
    Run run = Run.of(all.toArray(String[]::new));
    assertEquals(0, run.status(), run.err());
    return run.out();
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private String write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }
}

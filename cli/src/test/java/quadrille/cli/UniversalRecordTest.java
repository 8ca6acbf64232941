package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Observation;

/**
 * A course whose chart numbers teeth 1 to 32. Of these numbers, 11 to 18, 21 to 28, 31 and 32 are
 * ISO 3950 codes of other teeth, so that a number taken for a code goes unnoticed: 14 is the upper
 * left first molar here, and there the upper right first premolar.
 */
final class UniversalRecordTest {
  private static final String CHART = Golden.demo("universal-numbering.json");
  private static final String AT = "--at=2026-03-20T12:00:00+01:00";
  private static final Tooth UPPER_LEFT_FIRST_MOLAR = Tooth.ofIso(26);
  private static final Tooth UPPER_RIGHT_FIRST_PREMOLAR = Tooth.ofIso(14);

  /** What the plan says of teeth, not what somebody typed. */
  private static final Pattern PLANNED_TEETH =
      Pattern.compile("\"teeth\":\\[[^]]*]|\"quadrant\":\"..\",\"tooth\":\"[0-9]+\"");

  private static final Pattern NUMBER = Pattern.compile("\"([0-9]+)\"");
  private static final Pattern PART =
      Pattern.compile("(?<=\"area\":\"[A-Z]{2} [a-z]{1,9} )([0-9-]+)");

  @TempDir private static Path shared;
  private static String begun = "";

  @TempDir private Path folder;
  private String course = "";

  @BeforeAll
  static void beginOnce() {
    String plan = shared.resolve("plan.json").toString();
    begun = shared.resolve("begun.ndjson").toString();
    assertEquals(Status.DONE, Run.of("plan", CHART, "--effort", "quick", "-o", plan).status());
    assertEquals(Status.DONE, Run.of("record", begun, "--start", plan, "--chart", CHART).status());
  }

  @BeforeEach
  void copy() throws IOException {
    course = folder.resolve("course.ndjson").toString();
    Files.copy(Path.of(begun), Path.of(course));
  }

  private Run record(String... options) {
    List<String> args = new ArrayList<>(List.of("record", course, AT));
    args.addAll(List.of(options));
    return Run.of(args.toArray(new String[0]));
  }

  private Run visitOne(String... options) {
    List<String> args =
        new ArrayList<>(
            List.of("--visit=1", "--date=2026-03-20", "--clinician=C2", "--minutes=64"));
    args.addAll(List.of(options));
    return record(args.toArray(new String[0]));
  }

  private CourseLog log() throws Exception {
    return CourseFile.read(Path.of(course));
  }

  private Tooth found() throws Exception {
    List<Observation> findings = log().recorded().get(0).done().findings();
    assertEquals(1, findings.size());
    return findings.get(0).tooth();
  }

  @Test
  void aFindingStaysAtItsToothFromOptionToPage() throws Exception {
    assertEquals(Status.DONE, visitOne("--depth=14 lingual distal=8").status());
    assertEquals(UPPER_LEFT_FIRST_MOLAR, found());
    String line = Files.readString(Path.of(course)).lines().toList().get(1);
    assertTrue(line.contains("\"numbering\":\"universal\""), line);
    assertTrue(line.contains("\"what\":\"depth\",\"tooth\":\"14\""), line);
    assertTrue(record("--show").out().contains("visit 1: 14 lingual distal 8 mm"));
    String json = record("--format", "json").out();
    assertTrue(json.contains("\"numbering\": \"universal\""), json);
    assertTrue(json.contains("\"what\": \"14 lingual distal 8 mm\""), json);
    assertTrue(record("--format", "html").out().contains("14 lingual distal 8 mm"));
  }

  @Test
  void anInjectionGivenAtAToothIsGivenOnItsSide() throws Exception {
    Run run =
        visitOne(
            "--given=upper infiltration 14 articaine-4-200 0.6", "--failed=upper infiltration 14");
    assertEquals(Status.DONE, run.status(), run.err());
    var done = log().recorded().get(0).done();
    assertEquals(UPPER_LEFT_FIRST_MOLAR, done.injections().get(0).tooth());
    assertEquals(UPPER_LEFT_FIRST_MOLAR.quadrant(), done.injections().get(0).quadrant());
    assertEquals(UPPER_LEFT_FIRST_MOLAR, found());
    assertTrue(record("--show").out().contains("the upper infiltration 14 did not take"));
    Run wrong = visitOne("--correct=2", "--given=upper infiltration 46 articaine-4-200 0.6");
    assertTrue(
        wrong.err().contains("found \"46\"; allowed: the number of a tooth in quotes"),
        wrong.err());
  }

  @Test
  void faultsAndQuestionsAreInTheChartsNumbers() {
    Run wrong = visitOne("--sleeve-broken=14", "--depth=16 facial distal=5");
    assertTrue(
        wrong.err().contains("--sleeve-broken: found tooth 14; allowed: an implant"), wrong.err());
    assertTrue(wrong.err().contains("--depth: found tooth 16; allowed: "), wrong.err());
    Run asked =
        Run.withInput("1\n2026-03-20\nC2\n60\n\n?\n" + "\n".repeat(60), "record", course, "--ask");
    assertTrue(asked.err().contains(" 3 facial distal=7"), asked.err());
    assertTrue(asked.err().contains(" pus 3 facial"), asked.err());
  }

  @Test
  void aFileSaysItsNumberingOrIsRefused() throws Exception {
    Path file = folder.resolve("visit.json");
    String text =
        """
        {"schema": "quadrille/visit/1", "visit": 1, "date": "2026-03-20", "clinician": "C2",
         "minutes": 60, "found": [{"what": "depth", "tooth": "14", "aspect": "facial",
                                   "site": "distal", "depthMm": 5}]}
        """;
    Files.writeString(file, text);
    Run silent = record("--from", file.toString());
    assertEquals(Status.FILE, silent.status());
    assertTrue(silent.err().contains("found no \"numbering\""), silent.err());
    for (String numbering : List.of("iso3950", "universal")) {
      Files.writeString(
          file, text.replace("\"visit\":", "\"numbering\": \"" + numbering + "\", \"visit\":"));
      Run run = record("--from", file.toString());
      assertEquals(numbering.equals("universal") ? Status.DONE : Status.FILE, run.status());
      if (run.status() == Status.FILE) {
        assertTrue(
            run.err().contains("/numbering: found \"iso3950\"; allowed: universal"), run.err());
      }
    }
    assertEquals(UPPER_LEFT_FIRST_MOLAR, found());
  }

  private static String code(MatchResult number) {
    return "\"" + code(number.group(1)) + "\"";
  }

  private static String code(String number) {
    return String.valueOf(Numbering.UNIVERSAL.tooth(number).orElseThrow().iso());
  }

  /** As the first format had it: ISO 3950 codes, and no word of it. */
  private void ageTheLog() throws IOException {
    List<String> old = new ArrayList<>();
    for (String line : Files.readAllLines(Path.of(course))) {
      String body =
          line.substring(0, line.lastIndexOf(",\"check\""))
              .replace("\"kind\":\"planned\",\"numbering\":\"universal\"", "\"kind\":\"planned\"")
              .replace(
                  "\"kind\":\"visit-done\",\"numbering\":\"universal\"", "\"kind\":\"visit-done\"")
              .replace("quadrille/course/2", "quadrille/course/1");
      if (body.contains("\"kind\":\"visit-done\"")) {
        body =
            PLANNED_TEETH
                .matcher(body)
                .replaceAll(
                    teeth -> NUMBER.matcher(teeth.group()).replaceAll(UniversalRecordTest::code));
        body =
            PART.matcher(body)
                .replaceAll(
                    part ->
                        Pattern.compile("[0-9]+")
                            .matcher(part.group())
                            .replaceAll(tooth -> code(tooth.group())));
      }
      CRC32C crc = new CRC32C();
      crc.update(body.getBytes(UTF_8));
      old.add(String.format("%s,\"check\":\"%08x\"}", body, crc.getValue()));
    }
    Files.write(Path.of(course), old);
  }

  @Test
  void whatAnOldLogFoundIsConfirmedBeforeItIsPlannedOn() throws Exception {
    visitOne("--depth=14 lingual distal=8");
    ageTheLog();
    assertEquals(UPPER_RIGHT_FIRST_PREMOLAR, found(), "the old format took it for a code");
    Run refused = Run.of("plan", "--course", course, "--effort", "quick");
    assertEquals(Status.REFUSED, refused.status(), refused.err());
    assertTrue(
        refused.err().contains("entry 2, visit 1, tooth 5: 5 lingual distal 8 mm"), refused.err());
    assertTrue(record("--show").out().replaceAll("\\s+", " ").contains("was that tooth 5"));
    Run other = record("--confirm-teeth=14", "--by=C2");
    assertEquals(Status.FILE, other.status());
    assertTrue(other.err().contains("--confirm-teeth: found tooth 14; allowed: "), other.err());
    assertEquals(1, other.err().lines().count(), other.err());
  }

  @Test
  void confirmedTeethArePlannedOn() throws Exception {
    visitOne("--depth=14 lingual distal=8");
    ageTheLog();
    Run refused = Run.of("plan", "--course", course, "--effort", "quick");
    List<String> teeth =
        refused.err().lines().filter(line -> line.startsWith("  entry 2")).toList().stream()
            .map(line -> line.replaceFirst(".*, tooth ([0-9 ]+):.*", "$1"))
            .toList();
    Run confirmed = record("--confirm-teeth=" + String.join(" ", teeth), "--by=C2");
    assertEquals(course + ": wrote entry 3, teeth-confirmed.\n", confirmed.err());
    Run planned = Run.of("plan", "--course", course, "--effort", "quick");
    assertFalse(planned.err().contains("was that tooth"), planned.err());
    assertEquals(Status.DONE, planned.status(), planned.err());
    assertTrue(record("--show").out().replaceAll("\\s+", " ").contains("as recorded, says C2"));
  }

  @Test
  void aCorrectionSettlesWhatAnOldLogFound() throws Exception {
    visitOne("--depth=14 lingual distal=8");
    ageTheLog();
    Run corrected = visitOne("--correct=2", "--depth=14 lingual distal=8");
    assertEquals(Status.DONE, corrected.status(), corrected.err());
    assertEquals(UPPER_LEFT_FIRST_MOLAR, found());
    assertEquals(Status.DONE, Run.of("plan", "--course", course, "--effort", "quick").status());
  }
}

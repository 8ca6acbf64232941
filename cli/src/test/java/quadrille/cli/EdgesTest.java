package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TimeZone;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import quadrille.cli.render.SamplePlan;

/**
 * What is at the edge of what anybody would give a command: said, and never the program's fault.
 */
final class EdgesTest {

  private static final String DIARY = Golden.demo("diary.json");

  @TempDir private Path folder;
  private String plan = "";

  @BeforeEach
  void write() throws IOException {
    plan = Files.writeString(folder.resolve("plan.json"), SamplePlan.text()).toString();
  }

  private static Run said(String... args) {
    Run run = Run.of(args);
    assertTrue(run.status() <= Status.FILE, String.join(" ", args) + ": " + run.err());
    return run;
  }

  @Test
  void daysAtTheirEnds() {
    List<String> days = List.of("9999-12-31", "+999999999-12-31", "-999999999-01-01", "0000-01-01");
    for (String day : days) {
      said("book", plan, "--diary", DIARY, "--from", day);
      said("book", plan, "--diary", DIARY, "--from", "2026-03-02", "--until", day);
      said("rebook", DIARY, "--cancelled", "DEMO-201/3", "--from", day);
      said("rebook", DIARY, "--cancelled", "DEMO-201/3", "--from", "2026-03-02", "--until", day);
      said("rebook", DIARY, "--closed", day, "--from", "2026-03-02");
      said("diary", DIARY, "--week", day);
      said("record", plan, "--booked", "1=2026-03-02T09:00", "--at", day + "T12:00:00Z");
    }
    Run noLimit = said("book", plan, "--diary", DIARY, "--from=2026-03-02", "--until=9999-12-31");
    assertEquals("--until: is 9999-12-31; 2026-03-02 to 2028-03-01 are allowed.\n", noLimit.err());
    assertEquals(
        "--from: is 9999-12-31; days up to 9990-01-01 are allowed.\n",
        said("book", plan, "--diary", DIARY, "--from=9999-12-31").err());
  }

  /** One booking of the last in eight thousand years. */
  static void writeFarDiary(Path file) throws IOException {
    String text = Files.readString(Path.of(DIARY));
    int last = text.lastIndexOf("\"id\": \"DEMO-202/2\"");
    assertTrue(last > 0);
    Files.writeString(
        file, text.substring(0, last) + text.substring(last).replace("2026-03-16T", "9999-03-16T"));
  }

  @Test
  @Timeout(60)
  void aBookingThousandsOfYearsFromTheOthers() throws IOException {
    Path far = folder.resolve("far.json");
    writeFarDiary(far);
    Files.copy(Path.of(Golden.demo("hanna.ics")), folder.resolve("hanna.ics"));
    String diary = far.toString();
    assertTrue(said("diary", diary, "--week=9999-03-15").out().contains("DEMO-202"));
    said("book", plan, "--diary", diary, "--from=2026-03-02");
    said("rebook", diary, "--from=2026-03-02", "--away=ines@2026-03-05");
    said("rebook", diary, "--from=9989-03-02", "--closed=9989-03-05");
    said("rebook", DIARY, "--from=9989-03-02", "--closed=9989-03-05");
  }

  @Test
  @Timeout(120)
  void filesThatAreNone() throws Exception {
    Process made = new ProcessBuilder("mkfifo", folder.resolve("pipe").toString()).start();
    assumeTrue(made.waitFor() == 0, "no named pipes here");
    try (RandomAccessFile huge = new RandomAccessFile(folder.resolve("huge.json").toFile(), "rw")) {
      huge.setLength(3L << 30);
    }
    String chart = Golden.demo("typical.json");
    for (String file :
        List.of(
            "/dev/zero",
            "/dev/null",
            folder.toString(),
            folder.resolve("pipe").toString(),
            folder.resolve("huge.json").toString())) {
      List<Run> runs = new ArrayList<>();
      runs.add(said("check", file));
      runs.add(said("check", chart, "--practice", file));
      runs.add(said("audit", file, "--chart", chart));
      runs.add(said("kit", file));
      runs.add(said("diary", file, "--week", "2026-03-02"));
      runs.add(said("book", file, "--diary", DIARY, "--from=2026-03-02"));
      runs.add(said("record", file, "--show"));
      runs.add(said("calibrate", file));
      for (Run run : runs) {
        assertEquals(Status.FILE, run.status(), file + ": " + run.err());
        assertTrue(run.err().contains(file), run.err());
      }
      Run written = said("practice", "-o", file, "--force");
      assertTrue(written.status() > Status.REFUSED, written.err());
    }
  }

  @Test
  void noNameAtAll() {
    assertEquals("\"\": is no file name: it is empty.\n", said("check", "").err());
    assertEquals("\"\": is no file name: it is empty.\n", said("practice", "-o", "").err());
  }

  @Test
  void calendarsOutsideTheDiarysFolderAreNotRead() throws IOException {
    Path inside = Files.createDirectory(folder.resolve("inside"));
    Files.copy(Path.of(Golden.demo("hanna.ics")), folder.resolve("hanna.ics"));
    Path diary = inside.resolve("diary.json");
    Files.writeString(
        diary, Files.readString(Path.of(DIARY)).replace("\"hanna.ics\"", "\"../hanna.ics\""));
    Run run = said("diary", diary.toString(), "--week", "2026-03-02");
    assertEquals(Status.FILE, run.status());
    assertTrue(run.err().contains("it lies outside the folder"), run.err());
  }

  @Test
  @Timeout(120)
  void hundredsOfThousandsOfUnknownKeys() throws IOException {
    StringBuilder text = new StringBuilder("{\"schema\": \"quadrille/chart/1\"");
    for (int i = 0; i < 600_000; i++) {
      text.append(", \"key").append(i).append("\": 1");
    }
    Path file = Files.writeString(folder.resolve("keys.json"), text.append("}"));
    for (String[] args :
        new String[][] {
          {"check", file.toString()},
          {"diary", file.toString(), "--week", "2026-03-02"}
        }) {
      Run run = said(args);
      assertEquals(Status.FILE, run.status());
      assertTrue(run.err().lines().count() <= 1002, args[0]);
      assertTrue(run.err().contains(" more faults"), args[0]);
    }
  }

  // ---- one locale and one time zone for data

  private static final List<Locale> LOCALES =
      List.of(
          Locale.forLanguageTag("ar-EG-u-nu-arab"),
          Locale.forLanguageTag("th-TH-u-ca-buddhist-nu-thai"),
          Locale.forLanguageTag("tr-TR"),
          Locale.GERMANY,
          Locale.forLanguageTag("hi-IN-u-nu-deva"));

  @Test
  void everyLocaleAndZoneHasTheSameBytes() throws Exception {
    Locale locale = Locale.getDefault();
    TimeZone zone = TimeZone.getDefault();
    Path own = Files.createDirectory(folder.resolve("own"));
    new WorkFolder(own).record();
    Map<String, String> answers = EveryCommand.answers(own, false);
    try {
      for (Locale other : LOCALES) {
        Locale.setDefault(other);
        TimeZone.setDefault(TimeZone.getTimeZone(ZoneId.of("Pacific/Chatham")));
        for (Map.Entry<String, String> answer : EveryCommand.answers(own, false).entrySet()) {
          assertEquals(answers.get(answer.getKey()), answer.getValue(), other.toString());
        }
      }
    } finally {
      Locale.setDefault(locale);
      TimeZone.setDefault(zone);
    }
  }
}

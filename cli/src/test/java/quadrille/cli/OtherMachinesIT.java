package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import quadrille.cli.render.SamplePlan;

/**
 * Processes of their own under other collectors, locales and zones, and with little memory. Takes
 * minutes, so only {@code -Pkills} runs it.
 */
@EnabledIfSystemProperty(named = "quadrille.kills", matches = "true")
final class OtherMachinesIT {

  private static final Path NOTHING = Path.of("/dev/null");

  private static final List<List<String>> LOCALES =
      List.of(
          List.of("-Duser.language=en", "-Duser.country=US"),
          List.of("-Duser.language=ar", "-Duser.country=EG", "-Duser.extensions=u-nu-arab"),
          List.of("-Duser.language=th", "-Duser.country=TH", "-Duser.extensions=u-ca-buddhist"),
          List.of("-Duser.language=tr", "-Duser.country=TR"),
          List.of("-Duser.language=de", "-Duser.country=DE"));

  private static final List<String> ZONES = List.of("UTC", "Pacific/Chatham");

  private static final List<String> COLLECTORS = List.of("-XX:+UseSerialGC", "-XX:+UseG1GC");

  @TempDir private Path folder;

  /** Each locale with each collector, and with each zone. */
  @Test
  void everyCommandHasTheSameBytes() throws Exception {
    new WorkFolder(folder).record();
    String first = "";
    int runs = 0;
    for (int locale = 0; locale < LOCALES.size(); locale++) {
      for (int collector = 0; collector < COLLECTORS.size(); collector++) {
        List<String> words =
            new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString()));
        words.addAll(LOCALES.get(locale));
        words.add(COLLECTORS.get(collector));
        words.add("-Duser.timezone=" + ZONES.get((locale + collector) % ZONES.size()));
        words.addAll(List.of("-XX:TieredStopAtLevel=1", "-cp"));
        words.add(System.getProperty("java.class.path"));
        words.addAll(List.of(EveryCommand.class.getName(), folder.toString()));
        Run run = Spawned.run(NOTHING, words);
        assertEquals(0, run.status(), run.err());
        first = first.isEmpty() ? run.out() : first;
        assertEquals(first, run.out(), words.toString());
        runs++;
      }
    }
    assertTrue(first.length() > 50_000, first.length() + " characters");
    System.out.println(runs + " machines, " + first.length() + " characters each");
  }

  // ---- within five seconds and half a gigabyte

  private static final double MOST_SECONDS = 5;

  private String file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }

  /** As large as is taken: a beginning, and pieces until it is full. */
  private String full(String name, String begin, String piece, String end) throws IOException {
    int most = 32 << 20;
    int pieces = (most - begin.length() - end.length()) / piece.length();
    return file(name, begin + piece.repeat(pieces) + end);
  }

  private Map<String, List<String>> cases() throws IOException {
    Path diary = AtTheDesk.copyDiary(folder);
    String plan = file("plan.json", SamplePlan.text());
    EdgesTest.writeFarDiary(folder.resolve("far.json"));
    String far = folder.resolve("far.json").toString();
    String week = "--week=2026-03-02";
    String from = "--from=2026-03-02";
    Map<String, List<String>> cases = new LinkedHashMap<>();
    try (RandomAccessFile huge = new RandomAccessFile(folder.resolve("huge").toFile(), "rw")) {
      huge.setLength(3L << 30);
    }
    cases.put("3 GB", List.of("check", folder.resolve("huge").toString()));
    cases.put("keys", List.of("check", full("keys.json", "{\"a\": 1", ", \"key\": 1", "}")));
    cases.put("deep", List.of("check", full("deep.json", "", "[", "")));
    cases.put("one word", List.of("check", full("word.json", "{\"case\": \"", "a", "\"}")));
    cases.put(
        "teeth",
        List.of("check", full("teeth.json", "{\"teeth\": [0", ", {\"tooth\": \"99\"}", "]}")));
    cases.put("rows", List.of("check", full("rows.csv", "tooth,site,depthMm\n", "99,x,y\n", "")));
    cases.put("lines", List.of("check", full("lines.yaml", "a: 1\n", "- b\n", "")));
    cases.put(
        "practice", List.of("practice", "--practice", folder.resolve("keys.json").toString()));
    cases.put("plan", List.of("kit", folder.resolve("teeth.json").toString()));
    cases.put(
        "log",
        List.of("record", full("log.ndjson", "", "{\"number\":1,\"event\":{}}\n", ""), "--show"));
    cases.put("endless input", List.of("check", "-"));
    cases.put("endless line", List.of("plan", "--many", "-", "--effort=quick"));
    cases.put("diary of keys", List.of("diary", folder.resolve("keys.json").toString(), week));
    String ics = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n";
    String event =
        "BEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20260101T000000Z\r\nDTSTART:20260302T080000Z\r\n"
            + "DTEND:20260302T081000Z\r\nEND:VEVENT\r\n";
    Path sub = Files.createDirectory(folder.resolve("sub"));
    Files.copy(diary, sub.resolve("diary.json"));
    full("sub/hanna.ics", ics, event, "END:VCALENDAR\r\n");
    cases.put("calendar", List.of("diary", sub.resolve("diary.json").toString(), week));
    calendars(ics, week, cases);
    cases.put("far diary", List.of("diary", far, week));
    cases.put("far book", List.of("book", plan, "--diary", far, from));
    cases.put("far rebook", List.of("rebook", far, from, "--away=ines@2026-03-05"));
    cases.put(
        "two years",
        List.of("book", plan, "--diary", diary.toString(), from, "--until=2028-03-01"));
    cases.put("no end", List.of("book", plan, "--diary", far, from, "--until=9999-12-31"));
    cases.put("last day", List.of("book", plan, "--diary", far, "--from=9999-12-31"));
    cases.put("far week", List.of("diary", far, "--week=+999999999-12-31"));
    String typical = Golden.demo("typical.json");
    cases.put("many visits", List.of("plan", typical, "--visits=2147483647"));
    cases.put("no visits", List.of("plan", typical, "--visits=-1"));
    cases.put("endless device", List.of("check", "/dev/zero"));
    cases.put("empty device", List.of("check", "/dev/null"));
    assertTrue(Spawned.can("mkfifo", folder.resolve("pipe").toString()));
    cases.put("pipe", List.of("check", folder.resolve("pipe").toString()));
    cases.put("pipe as diary", List.of("diary", folder.resolve("pipe").toString(), week));
    cases.put("folder", List.of("check", folder.toString()));
    cases.put("folder to write", List.of("practice", "--force", "-o", folder.toString()));
    cases.put("full device", List.of("practice", "--force", "-o", "/dev/full"));
    cases.put("pipe to write", List.of("practice", "--force", "-o", folder + "/pipe"));
    cases.put("full output", List.of("practice"));
    return cases;
  }

  /** Calendars of as many lines as are taken, or that return as often as nobody could follow. */
  private void calendars(String ics, String week, Map<String, List<String>> cases)
      throws IOException {
    int most = (32 << 20) / 128 - 4;
    StringBuilder distinct = new StringBuilder();
    StringBuilder changes = new StringBuilder();
    StringBuilder seconds = new StringBuilder();
    for (int i = 0; i < most / 5; i++) {
      distinct.append("BEGIN:VEVENT\r\nUID:").append(i).append("\r\n");
      distinct.append("DTSTART:20260302T080000Z\r\nDTEND:20260302T081000Z\r\nEND:VEVENT\r\n");
      String time = String.format(Locale.ROOT, "%02d%02d%02d", i / 3600 % 24, i / 60 % 60, i % 60);
      String day = "202603" + (10 + i / 86_400);
      seconds.append("BEGIN:VEVENT\r\nDTSTART:").append(day).append("T").append(time);
      seconds.append("Z\r\nDURATION:PT").append(1 - i % 2).append("S\r\nEND:VEVENT\r\n");
      changes.append("BEGIN:VEVENT\r\nUID:1\r\nRECURRENCE-ID:").append(day).append("T");
      changes.append(time).append("Z\r\nDTSTART:20260302T080000Z\r\nEND:VEVENT\r\n");
    }
    String minutely = event("RRULE:FREQ=MINUTELY");
    Map<String, String> bodies = new LinkedHashMap<>();
    bodies.put("as many events as are taken", distinct.toString());
    bodies.put("seconds", seconds.toString());
    bodies.put("changes", changes.toString());
    bodies.put("each minute", minutely);
    bodies.put("each minute, often", minutely.repeat(most / 6));
    bodies.put("each day", event("RRULE:FREQ=DAILY").repeat(most / 6));
    bodies.put("rules", event("RRULE:FREQ=DAILY;UNTIL=20260104\r\n".repeat(most - 8).strip()));
    bodies.put(
        "dates", event("RDATE:" + "20260302T100000Z,".repeat(most - 9) + "20260302T110000Z"));
    bodies.put("days left out", minutely.replace("END:V", days(most) + "END:V"));
    bodies.put("one line", event("SUMMARY:" + "x".repeat((32 << 20) - 400)));
    bodies.put("parameters", event("SUMMARY" + ";X=1".repeat((8 << 20) - 100) + ":x"));
    bodies.put("deep", "BEGIN:VEVENT\r\n".repeat(most));
    for (Map.Entry<String, String> one : bodies.entrySet()) {
      String name = one.getKey().replace(' ', '-');
      Path own = Files.createDirectory(folder.resolve("calendar-" + name));
      Files.copy(folder.resolve("diary.json"), own.resolve("diary.json"));
      Files.writeString(own.resolve("hanna.ics"), ics + one.getValue() + "END:VCALENDAR\r\n");
      String diary = own.resolve("diary.json").toString();
      cases.put("calendar of " + one.getKey(), List.of("diary", diary, week));
    }
    cases.put(
        "booking beside a calendar",
        List.of(
            "book",
            folder.resolve("plan.json").toString(),
            "--diary=" + folder.resolve("calendar-as-many-events-as-are-taken/diary.json"),
            "--from=2026-03-02",
            "--take=1"));
  }

  private static String event(String line) {
    return "BEGIN:VEVENT\r\nDTSTART:20260102T080000Z\r\nDURATION:PT9S\r\n"
        + line
        + "\r\nEND:VEVENT\r\n";
  }

  private static String days(int most) {
    return "EXDATE;VALUE=DATE:" + "20260303,".repeat(most - 9) + "20260304\r\n";
  }

  @Test
  void boundaryCasesAreAnsweredSoon() throws Exception {
    assumeTrue(Spawned.can("bash", "-c", "time true"), "nothing takes the time here");
    List<String> faults = new ArrayList<>();
    for (Map.Entry<String, List<String>> one : cases().entrySet()) {
      String out = one.getKey().equals("full output") ? "/dev/full" : "/dev/null";
      List<String> words =
          new ArrayList<>(
              List.of("bash", "-c", "TIMEFORMAT='%R %U %S'; time \"$@\" >$0 2>/dev/null", out));
      words.addAll(Spawned.program("-Xmx512m", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"));
      words.addAll(one.getValue());
      boolean endless = one.getKey().startsWith("endless");
      Run run = Spawned.run(endless ? Path.of("/dev/zero") : NOTHING, words);
      String[] times = run.err().strip().split(" ");
      double wall = Double.parseDouble(times[0]);
      double processor = Double.parseDouble(times[1]) + Double.parseDouble(times[2]);
      String line =
          String.format(
              Locale.ROOT,
              "%s: status %d, %s s, of the processor %.2f s",
              one.getKey(),
              run.status(),
              times[0],
              processor);
      System.out.println(line);
      // On a machine that does other things, too, it waits for its turn.
      if (run.status() > Status.FILE || Math.min(wall, processor) > MOST_SECONDS) {
        faults.add(line);
      }
    }
    assertEquals(List.of(), faults);
  }
}

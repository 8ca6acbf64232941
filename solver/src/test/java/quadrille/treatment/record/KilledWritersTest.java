package quadrille.treatment.record;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.mouths.Tries;

/** Processes of their own that write to one course, and are killed while they do. */
@Tag("slow")
final class KilledWritersTest {
  private static final int ROUNDS = Tries.of(10, 60);
  private static final long LONGEST_WAIT_MICROS = 60_000;

  @TempDir private Path folder;

  /** Appends until it is killed, and says the number of each entry once it has been written. */
  public static final class Writer {
    private Writer() {}

    public static void main(String[] args) throws Exception {
      Path file = Path.of(args[0]);
      int most = Integer.parseInt(args[2]);
      for (int i = 0; i < most; i++) {
        Event event = SampleLogs.booked(args[1] + "-" + i);
        int number = CourseFile.append(file, SampleLogs.NINE, log -> event).entry().number();
        System.out.println(number + " " + args[1] + "-" + i);
        System.out.flush();
      }
    }
  }

  private Process start(Path file, String name, int most) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            "-XX:+UseSerialGC",
            "-Xshare:auto",
            "-cp",
            System.getProperty("java.class.path"),
            Writer.class.getName(),
            file.toString(),
            name,
            Integer.toString(most))
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  /**
   * Two writers at once, killed at random moments once both are at it. What they were told is
   * written is there, nothing else but at most one entry each that they had no time to tell of, and
   * the course can be read and written to as it lies.
   */
  @Test
  void nothingToldIsLostWhenWritersAreKilled() throws Exception {
    Random random = new Random(20261125);
    int untold = 0;
    for (int round = 0; round < ROUNDS; round++) {
      Path file = folder.resolve("killed-" + round + ".ndjson");
      CourseFile.begin(file, SampleLogs.NINE, SampleLogs.planned());
      List<Process> writers = List.of(start(file, "a", 100_000), start(file, "b", 100_000));
      TreeMap<Integer, String> told = new TreeMap<>();
      List<BufferedReader> outs = new ArrayList<>();
      for (Process writer : writers) {
        outs.add(writer.inputReader(UTF_8));
      }
      for (BufferedReader out : outs) {
        note(told, out.readLine());
      }
      TimeUnit.MICROSECONDS.sleep((long) (random.nextDouble() * LONGEST_WAIT_MICROS));
      for (Process writer : writers) {
        // Through its handle, which leaves what it said to be read.
        writer.toHandle().destroyForcibly();
      }
      for (int i = 0; i < writers.size(); i++) {
        for (String line = outs.get(i).readLine(); line != null; line = outs.get(i).readLine()) {
          note(told, line);
        }
        assertTrue(writers.get(i).waitFor() != 0, "it was killed");
      }
      untold += check(file, told, writers.size());
    }
    assertTrue(untold <= 2 * ROUNDS);
  }

  /** A line that was itself cut off told nothing. */
  private static void note(TreeMap<Integer, String> told, String line) {
    int space = line.indexOf(' ');
    if (space > 0 && line.matches("[0-9]+ [ab]-[0-9]+")) {
      told.put(Integer.parseInt(line.substring(0, space)), line.substring(space + 1));
    }
  }

  private static int check(Path file, TreeMap<Integer, String> told, int writers) throws Exception {
    CourseLog log = CourseFile.read(file);
    TreeMap<Integer, String> there = new TreeMap<>();
    for (LogEntry entry : log.entries().subList(1, log.entries().size())) {
      there.put(entry.number(), name(entry));
    }
    for (Map.Entry<Integer, String> one : told.entrySet()) {
      // The last line that was told may itself have been cut off.
      String found = String.valueOf(there.get(one.getKey()));
      assertTrue(found.startsWith(one.getValue()), one + " is lost, there is " + found);
    }
    int untold = there.size() - told.size();
    assertTrue(untold <= writers, untold + " entries that nobody told of");
    int next =
        CourseFile.append(file, SampleLogs.NINE, l -> SampleLogs.booked("after")).entry().number();
    assertEquals(log.entries().size() + 1, next);
    assertEquals(next, CourseFile.read(file).entries().size());
    return untold;
  }

  private static String name(LogEntry entry) {
    return String.valueOf(((Event.Booked) entry.event()).visits().get(0).clinician());
  }

  @Test
  void twoWritersLoseNoEntry() throws Exception {
    Path file = folder.resolve("both.ndjson");
    CourseFile.begin(file, SampleLogs.NINE, SampleLogs.planned());
    int each = 60;
    List<Process> writers = List.of(start(file, "a", each), start(file, "b", each));
    for (Process writer : writers) {
      writer.getInputStream().readAllBytes();
      assertEquals(0, writer.waitFor());
    }
    List<String> names =
        CourseFile.read(file).entries().stream().skip(1).map(KilledWritersTest::name).toList();
    for (String writer : List.of("a", "b")) {
      List<String> own = names.stream().filter(name -> name.startsWith(writer)).toList();
      List<String> expected = new ArrayList<>();
      for (int i = 0; i < each; i++) {
        expected.add(writer + "-" + i);
      }
      assertEquals(expected, own, "each in its own order, none missing");
    }
    assertEquals(2 * each, names.size());
  }

  /** Several threads of one process take turns, too. */
  @Test
  void threadsOfOneProcessLoseNoEntry() throws Exception {
    Path file = folder.resolve("threads.ndjson");
    CourseFile.begin(file, SampleLogs.NINE, SampleLogs.planned());
    List<Thread> threads = new ArrayList<>();
    for (int t = 0; t < 4; t++) {
      Thread thread =
          new Thread(
              () -> {
                for (int i = 0; i < 10; i++) {
                  try {
                    CourseFile.append(file, SampleLogs.NINE, log -> SampleLogs.booked("t"));
                  } catch (Exception e) {
                    throw new IllegalStateException(e);
                  }
                }
              });
      threads.add(thread);
      thread.start();
    }
    for (Thread thread : threads) {
      thread.join();
    }
    assertEquals(41, CourseFile.read(file).entries().size());
  }
}

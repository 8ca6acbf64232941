package quadrille.diary.file;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Writer;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Diaries;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.calendar.Interval;
import quadrille.document.FileStore;
import quadrille.mouths.Tries;

/** Processes of their own that take an offer from one diary, or are killed while they write it. */
@Tag("slow")
final class TwoTakersTest {

  private static final int TAKES = Tries.of(60, 120);
  private static final int KILLS = Tries.of(12, 100);

  /** How many kills are tried before it is said that none met a half-written file. */
  private static final int MOST_KILLS = 200;

  /** Course A is booked by one process, course B by the other, on different days. */
  private static Booking offer(String name) {
    return Diaries.booking(name, 1, name.equals("A") ? "2026-03-02T09:00" : "2026-03-03T09:00");
  }

  /**
   * Reads the diary that a line names, says so, waits for the next line, and takes its offer: says
   * whether it won or was told. Then, told, it reads anew and takes again.
   */
  public static final class Taker {
    private Taker() {}

    public static void main(String[] args) throws Exception {
      BufferedReader in = new BufferedReader(new InputStreamReader(System.in, UTF_8));
      Booking offer = offer(args[0]);
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        Path file = Path.of(line);
        LoadedDiary read = DiaryFile.read(file);
        say("read");
        in.readLine();
        // Nearer to one moment than two lines through two pipes.
        Path flag = file.resolveSibling("go");
        while (!Files.exists(flag)) {
          Thread.onSpinWait();
        }
        try {
          take(file, read, offer);
          say("won");
        } catch (ChangedDiaryException changed) {
          say("told");
          in.readLine();
          take(file, DiaryFile.read(file), offer);
          say("took it then");
        }
      }
    }

    private static void take(Path file, LoadedDiary read, Booking offer) throws Exception {
      List<Booking> bookings = new ArrayList<>(read.diary().bookings());
      bookings.add(offer);
      DiaryFile.replace(
          file, read, read.diary().withBookings(bookings), Instant.MIN, FileStore.USUAL);
    }

    private static void say(String word) {
      System.out.println(word);
      System.out.flush();
    }
  }

  /** Replaces a diary by itself with one booking more or less, until it is killed. */
  public static final class Scribe {
    private Scribe() {}

    public static void main(String[] args) throws Exception {
      Path file = Path.of(args[0]);
      boolean first = true;
      while (true) {
        LoadedDiary read = DiaryFile.read(file);
        List<Booking> bookings = new ArrayList<>(read.diary().bookings());
        if (!bookings.remove(offer("A"))) {
          bookings.add(offer("A"));
        }
        DiaryFile.replace(
            file, read, read.diary().withBookings(bookings), Instant.MIN, FileStore.USUAL);
        if (first) {
          Taker.say("writing");
          first = false;
        }
      }
    }
  }

  @TempDir private Path folder;

  private static Process start(Class<?> main, String argument) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            "-XX:+UseSerialGC",
            "-Xshare:auto",
            "-cp",
            classPath(),
            main.getName(),
            argument)
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  /**
   * Without the calendar library, which these diaries do not need: its zones cost a second each.
   */
  private static String classPath() {
    return Stream.of(System.getProperty("java.class.path").split(File.pathSeparator))
        .filter(part -> !part.contains("ical4j"))
        .collect(Collectors.joining(File.pathSeparator));
  }

  private static void tell(Process process, String line) throws IOException {
    Writer out = process.outputWriter(UTF_8);
    out.write(line + "\n");
    out.flush();
  }

  @Test
  void ofTwoThatTakeAtOneMomentOneWinsAndTheOtherIsTold() throws Exception {
    List<Process> takers = List.of(start(Taker.class, "A"), start(Taker.class, "B"));
    List<String> names = List.of("A", "B");
    List<BufferedReader> outs = new ArrayList<>();
    for (Process taker : takers) {
      outs.add(taker.inputReader(UTF_8));
    }
    for (int round = 0; round < TAKES; round++) {
      Path own = Files.createDirectory(folder.resolve("take-" + round));
      Path file = own.resolve("diary.json");
      Files.writeString(file, DiaryWriter.write(Diaries.small()));
      for (Process taker : takers) {
        tell(taker, file.toString());
      }
      for (BufferedReader out : outs) {
        assertEquals("read", out.readLine());
      }
      for (Process taker : takers) {
        tell(taker, "take it");
      }
      Files.createFile(own.resolve("go"));
      List<String> answers = List.of(outs.get(0).readLine(), outs.get(1).readLine());
      int winner = answers.indexOf("won");
      assertEquals(Set.of("won", "told"), new TreeSet<>(answers), "round " + round);
      assertEquals(List.of(offer(names.get(winner))), DiaryFile.read(file).diary().bookings());
      int other = 1 - winner;
      tell(takers.get(other), "again");
      assertEquals("took it then", outs.get(other).readLine());
      assertEquals(
          List.of(offer(names.get(winner)), offer(names.get(other))),
          DiaryFile.read(file).diary().bookings());
    }
    for (Process taker : takers) {
      taker.outputWriter(UTF_8).close();
      assertTrue(taker.waitFor(60, TimeUnit.SECONDS));
    }
  }

  /** A diary of a few hundred kilobytes, so that writing it takes a while. */
  private static Diary large() {
    List<BusyTime> busy = new ArrayList<>();
    for (int i = 0; i < 300; i++) {
      busy.add(
          new BusyTime(
              Interval.of(Diaries.at("2027-01-01T08:00").plusSeconds(3600L * i), 30),
              "ada",
              "one",
              List.of("kit"),
              null));
    }
    return Diaries.small().withBusy(busy);
  }

  private boolean partIsThere() throws IOException {
    try (DirectoryStream<Path> parts = Files.newDirectoryStream(folder, ".diary.json.*.part")) {
      return parts.iterator().hasNext();
    }
  }

  /** Waits until the scribe has begun to write, or for half a second at most. */
  private void awaitPart() throws IOException {
    // What the one before left is cleared away before a new one is begun.
    long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(500);
    while (!partIsThere() && System.nanoTime() < end) {
      Thread.onSpinWait();
    }
  }

  @Test
  void killedWhileItWritesTheOldDiaryIsWhole() throws Exception {
    Random random = new Random(20261125);
    Path file = folder.resolve("diary.json");
    String without = DiaryWriter.write(large());
    String with = DiaryWriter.write(large().withBookings(List.of(offer("A"))));
    Files.writeString(file, without);
    int interrupted = 0;
    Set<String> seen = new TreeSet<>();
    // As often as asked, and on until the kills have shown both ends and one half-written file.
    for (int kill = 0;
        kill < KILLS || kill < MOST_KILLS && (interrupted == 0 || seen.size() < 2);
        kill++) {
      Process scribe = start(Scribe.class, file.toString());
      assertEquals("writing", scribe.inputReader(UTF_8).readLine());
      awaitPart();
      if (kill % 2 == 0) { // else at once, while the part is surely being written
        TimeUnit.MICROSECONDS.sleep(random.nextInt(3_000));
      }
      scribe.destroyForcibly();
      assertTrue(scribe.waitFor() != 0, "it was killed");
      String text = Files.readString(file);
      assertTrue(text.equals(with) || text.equals(without), "kill " + kill);
      seen.add(text.equals(with) ? "with" : "without");
      interrupted += partIsThere() ? 1 : 0;
      assertEquals(List.of(), DiaryAudit.read(DiaryFile.read(file).diary()));
    }
    // Kills did meet it in the middle of writing, and the lock did not outlive its holder.
    assertTrue(interrupted > 0, "no kill met a half-written file");
    assertEquals(2, seen.size());
    DiaryFile.replace(file, DiaryFile.read(file), large(), Instant.MIN, FileStore.USUAL);
    assertEquals(without, Files.readString(file));
  }
}

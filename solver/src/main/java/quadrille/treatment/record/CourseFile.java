package quadrille.treatment.record;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.document.Expected;
import quadrille.document.Fault;
import quadrille.document.FileLog;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;

/**
 * A course's log on disk: one JSON object a line, only ever appended to.
 *
 * <p>Writers take turns by a lock on the file, and an entry is on the disk before its writer is
 * told so. A writer that is killed leaves at most its own entry cut off; readers leave that out and
 * say so, and the next writer removes the rest of it.
 */
public final class CourseFile {

  private static final int MOST_FAULTS = 1000;

  private CourseFile() {}

  /** Decides what to write, with the log as it is at that moment; nobody else can write then. */
  public interface Maker {

    /**
     * @throws InvalidDocumentException where nothing can be written now; the file stays as it is
     */
    Event event(CourseLog log) throws InvalidDocumentException;
  }

  /**
   * What appending came to.
   *
   * @param torn number of an entry that was found cut off at the end of the file, and has been
   *     removed; null where none was
   */
  public record Appended(LogEntry entry, @Nullable Integer torn) {}

  /**
   * Begins a course.
   *
   * @throws FileAlreadyExistsException where the file exists; a course is never written over
   * @throws IOException where it cannot be written; no file is left then
   */
  public static void begin(Path file, OffsetDateTime at, Event.Planned planned) throws IOException {
    begin(file, at, planned, FileStore.USUAL);
  }

  /** Begins a course by the rules of a store. */
  public static void begin(Path file, OffsetDateTime at, Event.Planned planned, FileStore store)
      throws IOException {
    LogEntry entry = new LogEntry(1, at, planned, planned.chart().numbering());
    store.write(file, LogLine.of(entry) + "\n", Expected.NOTHING);
  }

  /**
   * Reads a course.
   *
   * @throws InvalidDocumentException where it is no course, or was changed by hand, with every
   *     fault
   * @throws IOException where it cannot be read
   */
  public static CourseLog read(Path file) throws IOException, InvalidDocumentException {
    return read(file, FileStore.USUAL);
  }

  /** Reads a course by the rules of a store. */
  public static CourseLog read(Path file, FileStore store)
      throws IOException, InvalidDocumentException {
    try (FileLog log = store.log(file, false)) {
      return parse(name(file), log.bytes()).log();
    }
  }

  /**
   * Appends an entry. It is on the disk when this returns.
   *
   * @param at when, as the caller's clock has it
   * @throws InvalidDocumentException where the file is no course, or the maker has nothing to write
   * @throws IOException where it cannot be written; the course is as it was, but for what had been
   *     cut off
   */
  public static Appended append(Path file, OffsetDateTime at, Maker maker)
      throws IOException, InvalidDocumentException {
    return append(file, at, maker, FileStore.USUAL);
  }

  /** Appends an entry by the rules of a store. */
  public static Appended append(Path file, OffsetDateTime at, Maker maker, FileStore store)
      throws IOException, InvalidDocumentException {
    try (FileLog log = store.log(file, true)) {
      Parsed parsed = parse(name(file), log.bytes());
      LogEntry entry =
          new LogEntry(
              parsed.log().entries().size() + 1,
              at,
              maker.event(parsed.log()),
              parsed.log().numbering());
      List<Fault> faults = faults(name(file), parsed.log().entries(), entry);
      if (!faults.isEmpty()) {
        throw new InvalidDocumentException(faults);
      }
      String written = LogLine.of(entry);
      // What could not be read again would make the whole course unreadable, for good.
      LogLine.read(name(file), entry.number(), written);
      String line = (parsed.lineEnded() ? "" : "\n") + written + "\n";
      log.append(parsed.wholeBytes(), line.getBytes(UTF_8));
      return new Appended(entry, parsed.log().torn());
    }
  }

  private static String name(Path file) {
    Path name = file.getFileName();
    return name == null ? file.toString() : name.toString();
  }

  /**
   * @param wholeBytes how many bytes the whole entries take up
   * @param lineEnded whether the last whole entry has its line end
   */
  private record Parsed(CourseLog log, long wholeBytes, boolean lineEnded) {}

  /**
   * Reads a course from its bytes.
   *
   * @param source the file's name, for faults
   * @throws InvalidDocumentException where it is no course, or was changed by hand, with every
   *     fault
   */
  public static CourseLog parse(byte[] bytes, String source) throws InvalidDocumentException {
    return parse(source, bytes).log();
  }

  /** What has this many faults is no course; more of them help nobody, and each takes its time. */
  private static boolean goesOn(
      byte[] bytes, int from, @Nullable Integer torn, List<Fault> faults) {
    return from < bytes.length && torn == null && faults.size() < MOST_FAULTS;
  }

  private static Parsed parse(String source, byte[] bytes) throws InvalidDocumentException {
    List<LogEntry> entries = new ArrayList<>();
    List<Fault> faults = new ArrayList<>();
    @Nullable Integer torn = null;
    int from = 0;
    boolean lineEnded = true;
    long whole = 0;
    for (int number = 1; goesOn(bytes, from, torn, faults); number++) {
      int end = from;
      while (end < bytes.length && bytes[end] != '\n') {
        end++;
      }
      boolean ended = end < bytes.length;
      boolean last = end + 1 >= bytes.length;
      String line = new String(bytes, from, end - from, UTF_8);
      switch (LogLine.state(line)) {
        case WHOLE -> {
          try {
            LogEntry entry = LogLine.read(source, number, line);
            faults.addAll(faults(source, entries, entry));
            entries.add(entry);
          } catch (InvalidDocumentException invalid) {
            faults.addAll(invalid.faults());
          }
          whole = ended ? end + 1L : end;
          lineEnded = ended;
        }
        case CUT -> {
          if (last) {
            torn = number;
          } else {
            faults.add(
                new Fault(source + ":" + number, "a line without its check", "a whole entry"));
          }
        }
        case CHANGED ->
            faults.add(
                new Fault(
                    source + ":" + number,
                    "an entry that is not as it was written (its check does not fit)",
                    "entries as they were written; to put one right, record a correction"));
      }
      from = end + 1;
    }
    if (faults.size() >= MOST_FAULTS) {
      faults.add(new Fault(source, "so many faults; it was read no further", "a course"));
    }
    if (entries.isEmpty() && faults.isEmpty()) {
      faults.add(
          new Fault(
              source,
              torn == null ? "an empty file" : "no whole entry",
              "a course, whose first entry is its plan"));
    }
    if (!faults.isEmpty()) {
      throw new InvalidDocumentException(faults);
    }
    return new Parsed(new CourseLog(entries, torn), whole, lineEnded);
  }

  /** What speaks against an entry after those before it. */
  private static List<Fault> faults(String source, List<LogEntry> before, LogEntry entry) {
    List<Fault> faults = new ArrayList<>();
    String place = source + ":" + entry.number();
    boolean planned = entry.event() instanceof Event.Planned;
    if (before.isEmpty() != planned) {
      faults.add(
          new Fault(
              place,
              "an entry of the kind " + entry.event().word(),
              planned ? "the kind planned in the first entry only" : "the kind planned first"));
      return faults;
    }
    @Nullable Numbering said = entry.numbering();
    if (entry.event() instanceof Event.Planned first) {
      if (said != null && said != first.chart().numbering()) {
        faults.add(numbering(place, said.word(), first.chart().numbering()));
      }
      return faults;
    }
    CourseLog log = new CourseLog(before, null);
    if (said != null ? said != log.numbering() : before.get(0).numbering() != null) {
      faults.add(numbering(place, said == null ? "none" : said.word(), log.numbering()));
    }
    TreeSet<Integer> recorded = new TreeSet<>();
    log.recorded().forEach(one -> recorded.add(one.done().visit()));
    if (entry.event() instanceof VisitDone done && recorded.contains(done.visit())) {
      faults.add(
          new Fault(
              place,
              "a second record of visit " + done.visit(),
              "one record a visit; a correction takes its place"));
    }
    if (entry.event() instanceof Corrected corrected) {
      int origin = log.origin(corrected.entry());
      List<Integer> records =
          log.recorded().stream()
              .filter(one -> one.done().visit() == corrected.instead().visit())
              .map(CourseLog.Recorded::entry)
              .toList();
      if (!records.contains(origin)) {
        faults.add(
            new Fault(
                place,
                "a correction of entry "
                    + corrected.entry()
                    + " by a record of visit "
                    + corrected.instead().visit(),
                records.isEmpty()
                    ? "a visit that has been recorded"
                    : "entry " + records.get(0) + ", the record of that visit"));
      }
    }
    return faults;
  }

  private static Fault numbering(String place, String found, Numbering chart) {
    return new Fault(
        place + " /numbering",
        found,
        chart.word() + ", which is the numbering of the course's chart");
  }
}

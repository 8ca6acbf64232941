package quadrille.cli.serve;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.ChangedFileException;
import quadrille.document.Expected;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;
import quadrille.document.TextFiles;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.CourseLog;

/**
 * A practice's folder: {@code practice.json}, {@code diary.json}, {@code charts}, {@code courses},
 * {@code drafts}. Whatever is shown is read from it anew, and whatever is changed is written to it
 * whole, by whoever says what stood there before.
 */
public final class PracticeFolder {

  /** Endings of charts; a chart is written back in the form in which it was read. */
  private static final List<String> ENDINGS = List.of(".teeth", ".json", ".csv", ".yaml", ".yml");

  /** The practice file's name in the folder. */
  static final String PRACTICE = "practice.json";

  /** What another program's columns and codes mean. */
  static final String MAPPING = "mapping.json";

  /** The diary's. */
  static final String DIARY = "diary.json";

  private static final String DRAFT = ".draft";
  private static final Pattern SAFE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,59}");

  /** Names that some systems keep for devices. */
  private static final Pattern DEVICE =
      Pattern.compile("(?i)(con|prn|aux|nul|com[0-9]|lpt[0-9])(\\..*)?");

  /** As many are kept read; a log is some 100 kB in memory. */
  private static final int MOST_LOGS = 300;

  private static final int MOST_CHARTS = 10_000;

  private final Path root;
  private final FileStore files;
  private final boolean demo;
  private final String salt;
  private final ReadOnce<CourseLog> logs = new ReadOnce<>(MOST_LOGS);
  private final ReadOnce<Charted> charts = new ReadOnce<>(MOST_CHARTS);

  /**
   * @param demo whether it is a copy of the demo practice, which goes away with the program
   */
  public PracticeFolder(Path root, FileStore files, boolean demo) {
    this.root = root;
    this.files = files;
    this.demo = demo;
    byte[] random = new byte[16];
    new SecureRandom().nextBytes(random);
    this.salt = HexFormat.of().formatHex(random);
  }

  /** Begins a folder where it lacks what it needs. */
  public void prepare() throws IOException {
    for (String name : List.of("charts", "courses", "drafts", "chair")) {
      files.folder(root.resolve(name));
    }
    // Found out now, not with a patient in the chair. What a killed program leaves is swept.
    files.prepare(root.resolve("drafts").resolve("writable"), "", Expected.ANYTHING).close();
  }

  /** Lets the demo practice be under way. */
  public void beginDemo(Clock clock) throws IOException {
    DemoPractice.begin(root, files, clock);
  }

  public boolean demo() {
    return demo;
  }

  Path root() {
    return root;
  }

  FileStore files() {
    return files;
  }

  // ---- practice

  Practice practice() throws IOException, InvalidDocumentException {
    Optional<Text> text = practiceText();
    return text.isPresent()
        ? PracticeReader.read(PRACTICE, text.get().text())
        : PracticeReader.defaults();
  }

  /** The practice file; empty where there is none. */
  Optional<Text> practiceText() throws IOException, InvalidDocumentException {
    return text(root.resolve(PRACTICE));
  }

  /** Replaces the practice file, where it still is the one that was read. */
  void writePractice(String text, Expected expected) throws IOException {
    files.write(root.resolve(PRACTICE), text, expected);
  }

  /** What the columns and codes of another program mean; empty where nobody has said. */
  Optional<Text> mappingText() throws IOException, InvalidDocumentException {
    return text(root.resolve(MAPPING));
  }

  /** Replaces the mapping, where it still is the one that was read. */
  void writeMapping(String text, Expected expected) throws IOException {
    files.write(root.resolve(MAPPING), text, expected);
  }

  // ---- diary and courses

  /** The diary; empty where the practice has none. */
  Optional<LoadedDiary> diary() throws IOException, InvalidDocumentException {
    Path file = root.resolve(DIARY);
    return Files.exists(file) ? Optional.of(DiaryFile.read(file, files)) : Optional.empty();
  }

  /**
   * A course's log.
   *
   * @param id what addresses call it
   * @param name its file's
   */
  record Log(String id, String name, CourseLog log) {}

  /**
   * The logs of all courses, by file name.
   *
   * @param unread is told of each that cannot be read, and why
   */
  List<Log> logs(Consumer<String> unread) throws IOException {
    List<Log> logs = new ArrayList<>();
    for (String name : names("courses", file -> file.endsWith(".ndjson"))) {
      try {
        logs.add(log(name));
      } catch (InvalidDocumentException invalid) {
        unread.accept(invalid.faults().get(0).message());
      } catch (IOException unreadable) {
        unread.accept(name + ": " + reason(unreadable));
      }
    }
    return logs;
  }

  /** The log that addresses call so. */
  Optional<Log> log(Predicate<String> id) throws IOException, InvalidDocumentException {
    for (String name : names("courses", file -> file.endsWith(".ndjson"))) {
      if (id.test(id("courses/" + name))) {
        return Optional.of(log(name));
      }
    }
    return Optional.empty();
  }

  private Log log(String name) throws IOException, InvalidDocumentException {
    byte[] bytes = files.bytes(root.resolve("courses").resolve(name));
    CourseLog log = logs.get(name, bytes, () -> CourseFile.parse(bytes, name));
    return new Log(id("courses/" + name), name, log);
  }

  /** The log's file. */
  Path course(Log log) {
    return root.resolve("courses").resolve(log.name());
  }

  // ---- the chair

  private Path chair(Log log, int visit) {
    return root.resolve("chair").resolve(log.name() + "-" + visit + ".json");
  }

  /** A visit that is being run; empty where it has not begun. */
  Optional<Text> chairText(Log log, int visit) throws IOException, InvalidDocumentException {
    return text(chair(log, visit));
  }

  /** Keeps what was ticked, where it still is what was read. */
  void writeChair(Log log, int visit, String text, Expected expected) throws IOException {
    files.write(chair(log, visit), text, expected);
  }

  /**
   * Takes away what was ticked of a visit that is recorded, where it still is what was recorded.
   */
  void endChair(Log log, int visit, Expected expected) throws IOException {
    files.delete(chair(log, visit), expected);
  }

  /** The day of each case's last chart; charts without a day, and invalid ones, count for none. */
  Map<String, LocalDate> lastCharted() throws IOException {
    Map<String, LocalDate> last = new TreeMap<>();
    for (String name : names("charts", PracticeFolder::isChart)) {
      try {
        byte[] bytes = files.bytes(root.resolve("charts").resolve(name));
        Charted charted =
            charts.get(
                name,
                bytes,
                () -> {
                  Chart chart = ChartReader.read(name, TextFiles.decode(name, bytes));
                  return new Charted(chart.caseName(), chart.charted());
                });
        if (charted.day() != null) {
          last.merge(charted.caseName(), charted.day(), (a, b) -> a.isAfter(b) ? a : b);
        }
      } catch (IOException | InvalidDocumentException notAChart) {
        // Whoever opens it is told.
      }
    }
    return last;
  }

  private record Charted(String caseName, @Nullable LocalDate day) {}

  // ---- mouths

  /**
   * A mouth: its chart, its draft, or both.
   *
   * @param id what addresses call it; says nothing of the patient, and holds until the program ends
   * @param key the chart's file name; of a new mouth, any that is free
   * @param chart whether it has a chart
   * @param draft whether it has a draft
   */
  record Mouth(String id, String key, boolean chart, boolean draft) {}

  /** A text with what it was when it was read. */
  record Text(String text, Expected revision) {}

  List<Mouth> mouths() throws IOException {
    Set<String> charts = names("charts", PracticeFolder::isChart);
    Set<String> drafts =
        names("drafts", name -> name.endsWith(DRAFT)).stream()
            .map(name -> name.substring(0, name.length() - DRAFT.length()))
            .collect(Collectors.toCollection(TreeSet::new));
    Set<String> keys = new TreeSet<>(charts);
    keys.addAll(drafts);
    return keys.stream()
        .map(key -> new Mouth(id(key), key, charts.contains(key), drafts.contains(key)))
        .toList();
  }

  Optional<Mouth> mouth(String id) throws IOException {
    return mouths().stream().filter(mouth -> mouth.id().equals(id)).findFirst();
  }

  private static boolean isChart(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    return ENDINGS.stream().anyMatch(lower::endsWith);
  }

  private Set<String> names(String folder, Predicate<String> which) throws IOException {
    try (Stream<Path> all = Files.list(root.resolve(folder))) {
      return all.filter(Files::isRegularFile)
          .map(file -> String.valueOf(file.getFileName()))
          .filter(which)
          .collect(Collectors.toCollection(TreeSet::new));
    }
  }

  String id(String key) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest((salt + "/" + key).getBytes(UTF_8));
      return HexFormat.of().formatHex(digest, 0, 8);
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("Every Java platform has SHA-256.", impossible);
    }
  }

  Optional<Text> chartText(Mouth mouth) throws IOException, InvalidDocumentException {
    return mouth.chart() ? text(chart(mouth)) : Optional.empty();
  }

  Chart read(Mouth mouth) throws IOException, InvalidDocumentException {
    Text text = chartText(mouth).orElseThrow(() -> new NoSuchFileException("no chart"));
    return ChartReader.read(mouth.key(), text.text());
  }

  Optional<Text> draft(Mouth mouth) throws IOException, InvalidDocumentException {
    return mouth.draft() ? text(draftFile(mouth.key())) : Optional.empty();
  }

  private Optional<Text> text(Path file) throws IOException, InvalidDocumentException {
    try {
      byte[] bytes = files.bytes(file);
      return Optional.of(
          new Text(
              TextFiles.decode(String.valueOf(file.getFileName()), bytes), Expected.bytes(bytes)));
    } catch (NoSuchFileException gone) {
      return Optional.empty();
    }
  }

  private Path chart(Mouth mouth) {
    return root.resolve("charts").resolve(mouth.key());
  }

  private Path draftFile(String key) {
    return root.resolve("drafts").resolve(key + DRAFT);
  }

  /** Begins the draft of a new mouth. */
  Mouth begin(String text) throws IOException {
    byte[] random = new byte[8];
    new SecureRandom().nextBytes(random);
    String key = "new-" + HexFormat.of().formatHex(random);
    writeDraft(key, text, Expected.NOTHING);
    return new Mouth(id(key), key, false, true);
  }

  /** Keeps what has been typed. */
  Expected writeDraft(String key, String text, Expected expected) throws IOException {
    files.write(draftFile(key), text, expected);
    return Expected.bytes(text.getBytes(UTF_8));
  }

  /**
   * Takes a draft away.
   *
   * @throws ChangedFileException where it is another one by now; it stays
   */
  void dropDraft(Mouth mouth, Expected draft) throws IOException {
    files.delete(draftFile(mouth.key()), draft);
  }

  /**
   * Writes a chart in the form of its file; of a new mouth, as tooth lines named after its case.
   *
   * @param expected the chart that was read when its writing began
   * @param draft what is saved; one that has been typed on since stays
   * @throws FileAlreadyExistsException where a new mouth's case has a chart already
   */
  Mouth save(Mouth mouth, Chart chart, Expected expected, Expected draft) throws IOException {
    String key = mouth.chart() ? mouth.key() : fileName(chart.caseName());
    Path file = root.resolve("charts").resolve(key);
    String text = written(key, chart);
    try {
      files.write(file, text, expected);
    } catch (ChangedFileException | FileAlreadyExistsException other) {
      // Saved already, by a program that ended before it took the draft away.
      if (!Expected.of(file).equals(Expected.bytes(text.getBytes(UTF_8)))) {
        throw other;
      }
    }
    try {
      dropDraft(mouth, draft);
    } catch (ChangedFileException typedOn) {
      return new Mouth(id(key), key, true, mouth.key().equals(key));
    }
    return new Mouth(id(key), key, true, false);
  }

  private static String written(String key, Chart chart) {
    String lower = key.toLowerCase(Locale.ROOT);
    if (lower.endsWith(".teeth")) {
      return ChartWriter.lines(chart);
    }
    // JSON is YAML too.
    return lower.endsWith(".csv") ? ChartWriter.csv(chart) : ChartWriter.json(chart);
  }

  /** A file name for a case; nothing in a case can lead out of the folder, or to another case. */
  String fileName(String caseName) {
    return safe(caseName) + ".teeth";
  }

  /** The name of a case's log. */
  String courseName(String caseName) {
    return safe(caseName) + ".ndjson";
  }

  private static String safe(String caseName) {
    if (SAFE.matcher(caseName).matches()
        && !DEVICE.matcher(caseName).matches()
        && !caseName.endsWith(".")) {
      return caseName;
    }
    String plain = caseName.replaceAll("[^A-Za-z0-9-]+", "_");
    String start = plain.substring(0, Math.min(40, plain.length()));
    return "case-" + start + "-" + Integer.toHexString(caseName.hashCode());
  }

  /** The last chart of a case before this one, where the folder has one. */
  Optional<Chart> before(String caseName, @Nullable LocalDate charted, String key)
      throws IOException {
    Chart last = null;
    LocalDate latest = null;
    for (Mouth mouth : mouths()) {
      if (!mouth.chart() || mouth.key().equals(key)) {
        continue;
      }
      try {
        Chart chart = read(mouth);
        LocalDate day = chart.charted();
        if (day != null
            && chart.caseName().equals(caseName)
            && (charted == null || day.isBefore(charted))
            && (latest == null || day.isAfter(latest))) {
          last = chart;
          latest = day;
        }
      } catch (InvalidDocumentException notAChart) {
        // Whoever opens it is told.
      }
    }
    return Optional.ofNullable(last);
  }

  /** Why, without the path of anything. */
  static String reason(IOException wrong) {
    return wrong instanceof FileSystemException of && of.getReason() != null
        ? of.getReason() + "."
        : wrong.getClass().getSimpleName() + ".";
  }
}

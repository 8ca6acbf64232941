package quadrille.cli.serve;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.ClashWords;
import quadrille.cli.render.DiaryWords;
import quadrille.cli.serve.PracticeFolder.Mouth;
import quadrille.cli.serve.PracticeFolder.Text;
import quadrille.diary.book.Clinician;
import quadrille.document.ChangedFileException;
import quadrille.document.Expected;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.facts.practice.PracticeSettings;
import quadrille.facts.practice.Setting;
import quadrille.facts.practice.SettingChange;
import quadrille.plan.course.Course;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;

/** The practice file, setting by setting: where each comes from, and what a change would do. */
final class PracticeRoom {

  private static final Pattern CAPITAL = Pattern.compile("(?<=[a-z])[A-Z]");
  private static final int MOST_NAME = 200;

  private final PracticeFolder folder;
  private final Clock clock;

  /** A change is tried one at a time: two courses are sought for it. */
  private final Semaphore trying = new Semaphore(1);

  PracticeRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
  }

  Optional<Reply> answer(Request request) throws IOException, InvalidDocumentException {
    return switch (request.method() + " " + request.part(1)) {
      case "GET ", "HEAD " -> Optional.of(show(request.query().getOrDefault("kept", "")));
      case "GET setting", "HEAD setting" -> form(request.query(), 200, List.of());
      case "POST try" -> attempt(request.form());
      case "POST keep" -> keep(request.form());
      default -> Optional.empty();
    };
  }

  // ---- all settings

  private Reply show(String kept) throws IOException, InvalidDocumentException {
    Practice practice = folder.practice();
    @Nullable Setting just = byPointer(practice).get(kept);
    Map<String, Setting> usual = byPointer(PracticeReader.defaults());
    Map<String, SettingChange> changes = lastChanges();
    Map<String, List<PracticePage.Row>> sections = new LinkedHashMap<>();
    for (Setting setting : PracticeSettings.of(practice)) {
      if (setting.path().equals(List.of("name"))) {
        continue;
      }
      sections
          .computeIfAbsent(words(setting.path().get(0)), name -> new ArrayList<>())
          .add(row(setting, usual.get(setting.pointer()), changes.get(setting.pointer())));
    }
    return Reply.html(
        Views.view(
            "practice",
            new PracticePage(
                folder.demo(),
                practice.name(),
                just == null ? "" : words(just.path()),
                sections.entrySet().stream()
                    .map(
                        section ->
                            new PracticePage.Section(
                                section.getKey(),
                                (int)
                                    section.getValue().stream()
                                        .filter(row -> !row.mark().isEmpty())
                                        .count(),
                                section.getValue()))
                    .toList())));
  }

  private static PracticePage.Row row(
      Setting setting, @Nullable Setting usual, @Nullable SettingChange change) {
    boolean own = !setting.same(usual);
    return new PracticePage.Row(
        setting.path().size() == 1
            ? words(setting.path().get(0))
            : words(setting.path().subList(1, setting.path().size())),
        setting.pointer(),
        setting.value(),
        setting.source(),
        own ? (setting.calibrated() ? "calibrated" : "your own") : "",
        own && change != null && change.to().equals(setting.value()) ? by(change) : "");
  }

  private static String by(SettingChange change) {
    return change.by() + ", " + DiaryWords.date(change.at(), 0);
  }

  private static Map<String, Setting> byPointer(Practice practice) {
    return PracticeSettings.of(practice).stream()
        .collect(Collectors.toMap(Setting::pointer, one -> one, (a, b) -> a, LinkedHashMap::new));
  }

  private List<SettingChange> changes() throws IOException, InvalidDocumentException {
    return PracticeSettings.changes(folder.practiceText().map(Text::text).orElse(null));
  }

  private Map<String, SettingChange> lastChanges() throws IOException, InvalidDocumentException {
    Map<String, SettingChange> last = new LinkedHashMap<>();
    changes().forEach(change -> last.put(change.setting(), change));
    return last;
  }

  /** {@code longestVisitMinutes} as people write it; places in lists count from 1. */
  private static String words(String key) {
    return key.matches("[0-9]+")
        ? Integer.toString(Integer.parseInt(key) + 1)
        : CAPITAL.matcher(key).replaceAll(found -> " " + found.group().toLowerCase(Locale.ROOT));
  }

  private static String words(List<String> path) {
    return path.stream().map(PracticeRoom::words).collect(Collectors.joining(" · "));
  }

  // ---- one setting

  /** What is typed into the form. */
  private record Typed(
      String pointer, boolean reset, String value, String source, String by, String mouth) {
    static Typed of(Map<String, String> form, Setting now) {
      return new Typed(
          now.pointer(),
          form.containsKey("reset"),
          form.getOrDefault("value", now.value()),
          form.getOrDefault("source", now.source()),
          form.getOrDefault("by", ""),
          form.getOrDefault("mouth", ""));
    }
  }

  private Optional<Reply> form(Map<String, String> form, int status, List<String> faults)
      throws IOException, InvalidDocumentException {
    Optional<Text> file = folder.practiceText();
    Setting now = byPointer(folder.practice()).get(form.getOrDefault("setting", ""));
    return now == null
        ? Optional.empty()
        : Optional.of(page(file, now, Typed.of(form, now), status, faults, "", List.of()));
  }

  private Reply page(
      Optional<Text> file,
      Setting now,
      Typed typed,
      int status,
      List<String> faults,
      String tried,
      List<SettingPage.Card> cards)
      throws IOException, InvalidDocumentException {
    @Nullable Setting usual = byPointer(PracticeReader.defaults()).get(now.pointer());
    List<SettingPage.Mouth> mouths = new ArrayList<>();
    for (Mouth mouth : folder.mouths()) {
      if (mouth.chart()) {
        mouths.add(new SettingPage.Mouth(mouth.id(), name(mouth)));
      }
    }
    List<String> history = new ArrayList<>();
    for (SettingChange change : changes()) {
      if (change.setting().equals(now.pointer())) {
        history.add(0, by(change) + ": " + change.from() + " → " + change.to());
      }
    }
    return Reply.html(
        status,
        Views.view(
            "setting",
            new SettingPage(
                folder.demo(),
                Request.revision(revision(file)),
                now.pointer(),
                words(now.path()),
                now.kind().name().toLowerCase(Locale.ROOT),
                told(now),
                usual == null ? "" : told(usual),
                typed.reset(),
                typed.value(),
                typed.source(),
                typed.by(),
                people(),
                mouths,
                typed.mouth(),
                faults,
                tried,
                cards,
                history)));
  }

  private static String told(Setting setting) {
    return setting.value() + (setting.source().isEmpty() ? "" : " (" + setting.source() + ")");
  }

  private String name(Mouth mouth) throws IOException {
    try {
      return folder.read(mouth).caseName();
    } catch (InvalidDocumentException invalid) {
      return mouth.key();
    }
  }

  /** Whoever the diary knows, and whoever has changed something here. */
  private List<String> people() throws IOException, InvalidDocumentException {
    List<String> people = new ArrayList<>();
    try {
      folder
          .diary()
          .ifPresent(
              loaded ->
                  loaded.diary().clinicians().stream().map(Clinician::name).forEach(people::add));
    } catch (InvalidDocumentException invalid) {
      // The day says so.
    }
    changes().forEach(change -> people.add(change.by()));
    return people.stream().distinct().toList();
  }

  /** Shows what a change would do; nothing is written. */
  private Optional<Reply> attempt(Map<String, String> form)
      throws IOException, InvalidDocumentException {
    Optional<Text> file = folder.practiceText();
    Practice practice = folder.practice();
    Setting now = byPointer(practice).get(form.getOrDefault("setting", ""));
    if (now == null) {
      return Optional.empty();
    }
    Typed typed = Typed.of(form, now);
    if (stale(form, file)) {
      return Optional.of(page(file, now, typed, 412, List.of(STALE), "", List.of()));
    }
    Practice changed;
    try {
      changed = PracticeReader.read(PracticeFolder.PRACTICE, changed(file, now, typed));
    } catch (InvalidDocumentException invalid) {
      return Optional.of(page(file, now, typed, 422, messages(invalid), "", List.of()));
    }
    Setting after = byPointer(changed).get(now.pointer());
    String what =
        after == null || after.same(now)
            ? "Nothing changes: it is so already."
            : now.value() + " becomes " + after.value() + ".";
    Optional<Mouth> mouth = folder.mouth(typed.mouth()).filter(Mouth::chart);
    if (mouth.isEmpty()) {
      return Optional.of(page(file, now, typed, 200, List.of(), what, List.of()));
    }
    try {
      Chart chart = folder.read(mouth.get());
      List<SettingPage.Card> cards =
          List.of(
              new SettingPage.Card("As it is", card(chart, practice)),
              new SettingPage.Card("With the change", card(chart, changed)));
      String same =
          cards.get(0).card().equals(cards.get(1).card())
              ? " The course of this mouth stays as it is."
              : "";
      return Optional.of(page(file, now, typed, 200, List.of(), what + same, cards));
    } catch (InvalidDocumentException invalid) {
      return Optional.of(page(file, now, typed, 422, messages(invalid), "", List.of()));
    }
  }

  private static final String STALE =
      "Somebody else has changed the practice file since you began. Nothing has been written;"
          + " below is what it says now, with what you typed.";

  private static boolean stale(Map<String, String> form, Optional<Text> file) {
    return !form.getOrDefault("revision", "").equals(Request.revision(revision(file)));
  }

  private static Expected revision(Optional<Text> file) {
    return file.map(Text::revision).orElse(Expected.NOTHING);
  }

  private static List<String> messages(InvalidDocumentException invalid) {
    return invalid.faults().stream().map(Fault::message).toList();
  }

  private String changed(Optional<Text> file, Setting now, Typed typed)
      throws InvalidDocumentException {
    if (typed.by().isBlank() || typed.by().strip().length() > MOST_NAME) {
      throw new InvalidDocumentException(
          List.of(new Fault("Changed by", "\"" + typed.by().strip() + "\"", "who changes it")));
    }
    return PracticeSettings.changed(
        file.map(Text::text).orElse(null),
        now,
        typed.reset() ? null : typed.value(),
        typed.source().equals(now.source()) && !typed.value().strip().equals(now.value())
            ? ""
            : typed.source(),
        typed.by(),
        LocalDate.now(clock));
  }

  /** The best course of a mouth, or why there is none. */
  private CourseCard card(Chart chart, Practice practice) {
    try {
      if (!trying.tryAcquire(1, TimeUnit.MINUTES)) {
        return CourseRoom.none(0, List.of("Too much is being tried at once; try again."));
      }
    } catch (InterruptedException ending) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("The program ends.", ending);
    }
    try {
      PlanOutcome outcome =
          new CoursePlanner(Effort.QUICK, 1).plan(chart, practice, VisitRange.USUAL);
      if (outcome instanceof Planned planned) {
        Course course = planned.course();
        return CourseRoom.card(course, chart, course.visits().size());
      }
      return CourseRoom.none(0, ClashWords.of(((NoPlan) outcome).clashes(), practice));
    } catch (UnworkableException lacksInsert) {
      return CourseRoom.none(0, List.of(CourseRoom.NO_INSERT));
    } finally {
      trying.release();
    }
  }

  private Optional<Reply> keep(Map<String, String> form)
      throws IOException, InvalidDocumentException {
    Optional<Text> file = folder.practiceText();
    Setting now = byPointer(folder.practice()).get(form.getOrDefault("setting", ""));
    if (now == null) {
      return Optional.empty();
    }
    Typed typed = Typed.of(form, now);
    if (stale(form, file)) {
      return Optional.of(page(file, now, typed, 412, List.of(STALE), "", List.of()));
    }
    try {
      folder.writePractice(changed(file, now, typed), revision(file));
    } catch (InvalidDocumentException invalid) {
      return Optional.of(page(file, now, typed, 422, messages(invalid), "", List.of()));
    } catch (ChangedFileException | FileAlreadyExistsException other) {
      return form(form, 412, List.of(STALE));
    }
    return Optional.of(Reply.to("/practice?kept=" + Request.encoded(now.pointer())));
  }
}

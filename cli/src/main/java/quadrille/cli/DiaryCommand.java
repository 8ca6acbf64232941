package quadrille.cli;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.CallJson;
import quadrille.cli.render.CallText;
import quadrille.cli.render.DiaryFindingWords;
import quadrille.cli.render.DiaryJson;
import quadrille.cli.render.DiaryText;
import quadrille.cli.render.JournalJson;
import quadrille.cli.render.JournalText;
import quadrille.cli.render.page.DiaryPages;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.calendar.Interval;
import quadrille.diary.desk.CallList;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;

/** {@code quadrille diary}: a week in plain sight. */
@Command(
    name = "diary",
    customSynopsis = "quadrille diary DIARY [OPTION ...]",
    description = {
      "Show a week of a diary: what is booked, what is free, what each course needs.",
      "",
      "The diary is audited first: two at one time, hours, breaks, closed days, who",
      "may do what, order of visits, gaps, sterile sets. What is found goes to",
      "standard error, with status 1; the week is shown all the same.",
      "",
      "With --format html, a page to look at and print."
    })
final class DiaryCommand extends AnswerCommand {

  private static final int MOST_DAYS = 366;

  @Parameters(paramLabel = "DIARY", description = "A diary file.")
  private String diaryFile = "";

  @Option(
      names = "--week",
      order = 10,
      paramLabel = "DATE",
      description =
          "The week of this day, such as 2026-03-02; without it, the week of the first visit"
              + " that is held or promised.")
  @Nullable
  private LocalDate week;

  @Option(
      names = "--journal",
      order = 11,
      description =
          "What was changed in the diary, in place of the week: who, when, from, to, why.")
  private boolean journal;

  @Option(
      names = "--case",
      order = 12,
      paramLabel = "CASE",
      description = "With --journal or --export: of this course only.")
  @Nullable
  private String caseName;

  @Option(
      names = "--calls",
      order = 13,
      arity = "0..1",
      fallbackValue = "7",
      paramLabel = "DAYS",
      description =
          "Whom to call or remind, and when, in place of the week: for so many days, 7 unless said.")
  @Nullable
  private Integer calls;

  @Option(
      names = "--export",
      order = 14,
      paramLabel = "FOLDER",
      description =
          "Write calendars, one event a file, FHIR and appointment cards of what the diary holds.")
  @Nullable
  private String export;

  @Option(
      names = "--practice",
      order = 15,
      paramLabel = "FILE",
      description =
          "With --export: a practice file that has the practice's name and how it is reached.")
  @Nullable
  private String practiceFile;

  DiaryCommand(Streams streams) {
    super(streams);
  }

  @Override
  boolean drawsPages() {
    return true;
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    checkOutput(diaryFile);
    checkOptions();
    if (journal) {
      return journal();
    }
    if (calls != null) {
      return calls(calls);
    }
    if (export != null) {
      return export(export);
    }
    return show(
        diaryFile,
        week,
        (diary, shown, notes) ->
            switch (format(Format.TEXT)) {
              case JSON -> DiaryJson.of(diary, shown, notes);
              case HTML -> DiaryPages.of(diary, shown, notes);
              default -> DiaryText.of(diary, shown, notes, styled());
            },
        this);
  }

  private void checkOptions() throws StopException {
    int instead = (journal ? 1 : 0) + (calls == null ? 0 : 1) + (export == null ? 0 : 1);
    if (instead > 1) {
      throw StopException.usage("--journal, --calls and --export: one at a time.");
    }
    if (instead == 1 && (week != null || format(Format.TEXT) == Format.HTML)) {
      throw StopException.usage(
          "--journal, --calls and --export: answer with text or json, and of no week.");
    }
    if (caseName != null && !journal && export == null) {
      throw StopException.usage("--case: is for --journal and --export.");
    }
    if (practiceFile != null && export == null) {
      throw StopException.usage("--practice: is for --export.");
    }
    if (calls != null && (calls < 1 || calls > MOST_DAYS)) {
      throw StopException.usage("--calls: is " + calls + "; 1 to " + MOST_DAYS + " are allowed.");
    }
  }

  private int calls(int days) throws InvalidDocumentException, StopException {
    Diary diary = DiaryFiles.now(diaryFile, streams()).diary();
    List<CallList.Call> list = CallList.of(diary, streams().clock().instant(), days).calls();
    answer(
        format(Format.TEXT) == Format.JSON
            ? CallJson.of(diary, list)
            : CallText.of(diary, list, styled()));
    return Status.DONE;
  }

  private int export(String folder) throws InvalidDocumentException, StopException {
    String named = practiceFile;
    Practice practice =
        named == null ? null : PracticeReader.read(Documents.name(named), documents().read(named));
    Diary diary = DiaryFiles.exported(diaryFile, this).diary();
    String of = caseName;
    if (of != null && !ExportFiles.cases(diary).contains(of)) {
      throw StopException.usage("--case: the diary has no course \"" + of + "\".");
    }
    int written =
        ExportFiles.write(
            streams().files(),
            folder,
            new ExportFiles(diary, practice, streams().clock().instant()).all(of),
            output().force());
    message("Wrote " + written + (written == 1 ? " file" : " files") + " to " + folder + ".");
    return Status.DONE;
  }

  private int journal() throws InvalidDocumentException, StopException {
    Diary diary = DiaryFiles.now(diaryFile, streams()).diary();
    String of = caseName;
    if (of != null
        && diary.course(of).isEmpty()
        && diary.journal().stream().noneMatch(one -> one.cases().contains(of))) {
      throw StopException.usage("--case: neither diary nor journal knows \"" + of + "\".");
    }
    List<JournalEntry> entries =
        diary.journal().stream().filter(one -> of == null || one.cases().contains(of)).toList();
    answer(
        format(Format.TEXT) == Format.JSON
            ? JournalJson.of(diary, entries)
            : JournalText.of(diary, entries, styled()));
    return Status.DONE;
  }

  /** How a week is shown. */
  interface Showing {
    String of(Diary diary, DiaryWeek week, List<String> notes);
  }

  /**
   * Shows a week of a diary; what its audit finds is told.
   *
   * @param week null for the week of the first visit that is held or promised
   */
  static int show(String file, @Nullable LocalDate week, Showing showing, AnswerCommand command)
      throws InvalidDocumentException, StopException {
    LoadedDiary loaded = DiaryFiles.now(file, command.streams());
    command.checkOutput(SideFiles.calendars(file, loaded).toArray(String[]::new));
    LocalDate day = week == null ? DiaryWeek.first(loaded.diary()).orElse(null) : week;
    if (day == null) {
      throw StopException.usage("--week: is needed, since nothing is in the diary yet.");
    }
    List<DiaryFinding> findings = DiaryFile.audit(loaded, command.streams().clock().instant());
    LocalDate monday = DiaryWeek.monday(day);
    Interval days = LoadedDiary.days(loaded.diary(), monday, monday.plusDays(6));
    Diary diary = loaded.over(days);
    LocalDate today = LocalDate.now(command.streams().clock().withZone(diary.zone()));
    command.answer(showing.of(diary, DiaryWeek.of(diary, day, today), loaded.notes()));
    findings.forEach(finding -> command.message(DiaryFindingWords.line(finding)));
    return findings.isEmpty() ? Status.DONE : Status.REFUSED;
  }
}

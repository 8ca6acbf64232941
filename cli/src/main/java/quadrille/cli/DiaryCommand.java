package quadrille.cli;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
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
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.InvalidDocumentException;

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
      description = "With --journal: what it tells of this course.")
  @Nullable
  private String caseName;

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
    if (caseName != null && !journal) {
      throw StopException.usage("--case: is for --journal.");
    }
    if (journal) {
      return journal();
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

  private int journal() throws InvalidDocumentException, StopException {
    if (week != null || format(Format.TEXT) == Format.HTML) {
      throw StopException.usage("--journal: is text or json, and of no week.");
    }
    Diary diary = DiaryFiles.now(diaryFile, streams()).diary();
    String of = caseName;
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
    command.answer(showing.of(diary, DiaryWeek.of(diary, day), loaded.notes()));
    findings.forEach(finding -> command.message(DiaryFindingWords.line(finding)));
    return findings.isEmpty() ? Status.DONE : Status.REFUSED;
  }
}

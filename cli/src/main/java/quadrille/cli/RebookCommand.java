package quadrille.cli;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.BookWords;
import quadrille.cli.render.RebookJson;
import quadrille.cli.render.RebookText;
import quadrille.diary.book.Diary;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.book.Signature;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.Rebooking;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.desk.RebookingAnswer;
import quadrille.diary.desk.RebookingDesk;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.InvalidDocumentException;

/** {@code quadrille rebook}: new times after changes. */
@Command(
    name = "rebook",
    customSynopsis = "quadrille rebook DIARY [OPTION ...]",
    description = {
      "Find new times after changes, disturbing as little as can be.",
      "",
      "Visits promised to patients move only if they must; each move is listed with",
      "its reason. Nothing is written without --write."
    })
final class RebookCommand extends AnswerCommand {

  private static final int USUAL_DAYS = 56;

  @Parameters(paramLabel = "DIARY", description = "The practice's diary.")
  private String diaryFile = "";

  @ArgGroup(exclusive = false)
  @Nullable
  private Changes changes;

  @Option(
      names = "--from",
      order = 14,
      paramLabel = "DATE",
      description = "Nothing is moved or booked before this day; else tomorrow.")
  @Nullable
  private LocalDate from;

  @Option(
      names = "--until",
      order = 15,
      paramLabel = "DATE",
      description = "Nothing is booked after this day; else eight weeks from the first.")
  @Nullable
  private LocalDate until;

  @ArgGroup(exclusive = false)
  @Nullable
  private GapOptions gaps;

  @ArgGroup(exclusive = false)
  @Nullable
  private Writing writing;

  /** What has changed. */
  private static final class Changes {

    @Option(
        names = "--cancelled",
        order = 10,
        paramLabel = "BOOKING",
        description = "A booking that is called off, such as K-1042/2; may be repeated.")
    private List<String> cancelled = List.of();

    @Option(
        names = "--missed",
        order = 11,
        paramLabel = "BOOKING",
        description = "A booking to which the patient did not come.")
    private List<String> missed = List.of();

    @Option(
        names = "--away",
        order = 12,
        paramLabel = "WHO@DATES",
        description = "A clinician who is away: hanna@2026-03-10/2026-03-12.")
    private List<String> away = List.of();

    @Option(
        names = "--closed",
        order = 13,
        paramLabel = "DATES",
        description = "A day, or days, on which the practice is closed.")
    private List<String> closed = List.of();

    /**
     * Whether all bookings that are named are of one course; the number of a visit ends each id.
     */
    boolean ofOneCourse() {
      return Stream.concat(cancelled.stream(), missed.stream())
              .map(id -> id.substring(0, Math.max(0, id.lastIndexOf('/'))))
              .distinct()
              .count()
          == 1;
    }

    /** The changes, in the order of the options. */
    List<DiaryChange> read(Diary diary) throws StopException {
      List<DiaryChange> changes = new ArrayList<>();
      cancelled.forEach(id -> changes.add(new DiaryChange.Cancelled(id)));
      missed.forEach(id -> changes.add(new DiaryChange.Missed(id)));
      for (String text : away) {
        int at = text.indexOf('@');
        if (at < 0) {
          throw StopException.usage(BookWords.unknownAway(text, diary));
        }
        Days days = Days.of("--away", text.substring(at + 1));
        changes.add(new DiaryChange.Away(text.substring(0, at), days.first(), days.last()));
      }
      for (String text : closed) {
        Days days = Days.of("--closed", text);
        changes.add(new DiaryChange.Closed(days.first(), days.last()));
      }
      return changes;
    }
  }

  /** That the diary is to be replaced, and what is written with it. */
  private static final class Writing {

    @Option(
        names = "--write",
        order = 20,
        required = true,
        description = "Replace the diary by the new one.")
    private boolean write;

    @ArgGroup(exclusive = false)
    private RebookFiles files = new RebookFiles();
  }

  @Mixin private SigningOptions signing = new SigningOptions();

  RebookCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    if (changes == null) {
      throw StopException.usage(
          "rebook: say what has changed: --cancelled, --missed, --away or --closed.");
    }
    LongerGaps longer = gaps == null ? null : gaps.longer();
    if (longer != null && !changes.ofOneCourse()) {
      throw StopException.usage(
          "--longer-gaps: is for one course at a time: with --cancelled or --missed of one case.");
    }
    RebookFiles files = writing == null ? new RebookFiles() : writing.files;
    files.check(diaryFile, output());
    checkOutput(diaryFile);
    Gathering gathering = new Gathering();
    Gathering.Read<LoadedDiary> diary = gathering.read(() -> DiaryFiles.now(diaryFile, streams()));
    files.read(gathering, documents());
    gathering.check();
    LoadedDiary read = diary.get();
    files.checkBeside(output(), SideFiles.calendars(diaryFile, read));
    LocalDate first =
        this.from == null
            ? LocalDate.now(streams().clock().withZone(read.diary().zone())).plusDays(1)
            : this.from;
    LocalDate last = until == null ? first.plusDays(USUAL_DAYS - 1) : until;
    Days.checkBooking(first, last);
    Instant from = first.atStartOfDay(read.diary().zone()).toInstant();
    Instant now = streams().clock().instant();
    Instant settled = from.isBefore(now) ? from : now;
    List<DiaryChange> said = changes.read(read.diary());
    RebookingAnswer answer =
        DiaryFiles.at(
            diaryFile,
            file ->
                RebookingDesk.rebook(
                    read, said, BookingWeights.defaults(), first, last, settled, longer));
    DiaryFiles.tell(this, read, settled);
    if (answer instanceof RebookingAnswer.Rebooked rebooked) {
      if (writing == null) {
        show(rebooked.rebooking(), first);
      } else {
        write(rebooked, first, files);
      }
      return rebooked.rebooking().left().isEmpty() ? Status.DONE : Status.REFUSED;
    }
    throw StopException.usage(BookWords.unworkable(answer, read.diary()));
  }

  private void show(Rebooking rebooking, LocalDate first) throws StopException {
    boolean written = writing != null && writing.write;
    answer(
        format(Format.TEXT) == Format.JSON
            ? RebookJson.of(rebooking, written)
            : RebookText.of(rebooking, first, written, styled()));
  }

  private void write(RebookingAnswer.Rebooked rebooked, LocalDate first, RebookFiles files)
      throws InvalidDocumentException, StopException {
    Instant now = streams().clock().instant();
    Signature signed = signing.signature(this, now);
    try (SideFiles beside = new SideFiles(streams().files(), files.expected())) {
      files.prepare(beside, rebooked.rebooking().diary(), rebooked.changed(), now);
      if (!DiaryFiles.at(
          diaryFile, file -> RebookingDesk.write(file, rebooked, signed, streams().files()))) {
        throw StopException.refused(BookWords.changed(diaryFile) + " Ask again.");
      }
      show(rebooked.rebooking(), first);
      beside.commit(this);
    }
  }
}

package quadrille.cli;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.RebookJson;
import quadrille.cli.render.RebookText;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.Rebooker;
import quadrille.diary.booking.Rebooking;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.file.ChangedDiaryException;
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
final class RebookCommand extends BaseCommand {

  private static final int USUAL_DAYS = 56;

  @Parameters(paramLabel = "DIARY", description = "The practice's diary.")
  private String diaryFile = "";

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

  @Option(names = "--write", order = 20, description = "Replace the diary by the new one.")
  private boolean write;

  @Mixin private RebookFiles files = new RebookFiles();

  RebookCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    files.check(write, diaryFile);
    Gathering gathering = new Gathering();
    Gathering.Read<LoadedDiary> diary =
        gathering.read(() -> DiaryFiles.read(diaryFile, streams().files()));
    files.read(gathering, documents());
    gathering.check();
    LoadedDiary loaded = diary.get();
    files.checkBeside(SideFiles.calendars(diaryFile, loaded));
    Diary own = loaded.diary();
    LocalDate first = from == null ? LocalDate.now(Clock.system(own.zone())).plusDays(1) : from;
    LocalDate last = until == null ? first.plusDays(USUAL_DAYS - 1) : until;
    if (last.isBefore(first)) {
      throw StopException.usage("--until: is " + last + ", which is before " + first + ".");
    }
    Days.checkBooking(first, last);
    List<DiaryChange> changes = changes(own);
    Diary over = loaded.over(LoadedDiary.days(own, first, last));
    Rebooking rebooking = Rebooker.of(over, changes, BookingWeights.defaults(), first, last);
    DiaryFiles.check(diaryFile, loaded, rebooking.diary());
    if (write) {
      written(loaded, rebooking, first);
    } else {
      show(rebooking, first);
    }
    return rebooking.left().isEmpty() ? Status.DONE : Status.REFUSED;
  }

  private void show(Rebooking rebooking, LocalDate first) throws StopException {
    answer(
        format(Format.TEXT) == Format.JSON
            ? RebookJson.of(rebooking, write)
            : RebookText.of(rebooking, first, write, streams().styled()));
  }

  private void written(LoadedDiary loaded, Rebooking rebooking, LocalDate first)
      throws InvalidDocumentException, StopException {
    Instant now = Instant.now(Clock.systemUTC());
    try (SideFiles beside = new SideFiles(streams().files(), files.force())) {
      files.prepare(beside, loaded.diary(), rebooking.diary(), now);
      DiaryFiles.replace(diaryFile, loaded.revision(), rebooking.diary(), streams().files());
      show(rebooking, first);
      beside.commit(this);
    } catch (ChangedDiaryException changed) {
      throw StopException.refused(changed.getMessage() + " Ask again.");
    }
  }

  private List<DiaryChange> changes(Diary diary) throws StopException {
    List<DiaryChange> changes = new ArrayList<>();
    for (String id : cancelled) {
      changes.add(new DiaryChange.Cancelled(standing(diary, "--cancelled", id)));
    }
    for (String id : missed) {
      changes.add(new DiaryChange.Missed(standing(diary, "--missed", id)));
    }
    for (String text : away) {
      int at = text.indexOf('@');
      String who = at < 0 ? text : text.substring(0, at);
      if (at < 0 || diary.clinician(who).isEmpty()) {
        throw StopException.usage(
            "--away: is \""
                + text
                + "\"; a clinician and days are allowed, such as "
                + diary.clinicians().get(0).id()
                + "@2026-03-10/2026-03-12.");
      }
      Days days = Days.of("--away", text.substring(at + 1));
      changes.add(new DiaryChange.Away(who, days.first(), days.last()));
    }
    for (String text : closed) {
      Days days = Days.of("--closed", text);
      changes.add(new DiaryChange.Closed(days.first(), days.last()));
    }
    Set<String> named = new HashSet<>(cancelled);
    named.addAll(missed);
    if (named.size() < cancelled.size() + missed.size()) {
      throw StopException.usage("--cancelled and --missed: name a booking twice.");
    }
    if (changes.isEmpty()) {
      throw StopException.usage(
          "rebook: say what has changed: --cancelled, --missed, --away or --closed.");
    }
    return changes;
  }

  private static String standing(Diary diary, String option, String id) throws StopException {
    boolean stands =
        diary
            .booking(id)
            .filter(
                one ->
                    switch (one.status()) {
                      case HELD, PROMISED -> true;
                      case DONE, CANCELLED, MISSED -> false;
                    })
            .isPresent();
    if (!stands) {
      throw StopException.usage(option + ": no booking \"" + id + "\" stands in the diary.");
    }
    return id;
  }
}

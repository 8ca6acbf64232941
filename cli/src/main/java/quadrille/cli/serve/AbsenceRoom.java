package quadrille.cli.serve;

import java.io.IOException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.BookWords;
import quadrille.cli.render.DiaryFindingWords;
import quadrille.cli.render.DiaryWords;
import quadrille.cli.render.RebookText;
import quadrille.diary.book.Diary;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.Signature;
import quadrille.diary.book.Why;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.Rebooking;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.desk.RebookingAnswer;
import quadrille.diary.desk.RebookingDesk;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.InvalidDocumentException;

/**
 * Absences and closed days: what they move and why is shown, and then done; by the same desk as the
 * command rebook.
 */
final class AbsenceRoom {

  private static final int USUAL_DAYS = 56;
  private static final int MOST_DAYS = 365;

  private final PracticeFolder folder;
  private final Clock clock;

  AbsenceRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
  }

  /** Answers what would move, or lets it. */
  Optional<Reply> answer(Request request, LoadedDiary loaded)
      throws IOException, InvalidDocumentException {
    DeskForm form = new DeskForm(request.is("POST") ? request.form() : request.query());
    Diary diary = loaded.diary();
    Instant now = clock.instant();
    LocalDate today = LocalDate.ofInstant(now, diary.zone());
    LocalDate first = form.day("first", today);
    LocalDate last = first == null ? null : form.day("last", first);
    if (first != null && (first.isBefore(today) || first.isAfter(today.plusDays(2L * MOST_DAYS)))) {
      form.fault("The first day is today or later, and not more than two years ahead.");
    }
    if (first != null
        && last != null
        && (last.isBefore(first) || last.isAfter(first.plusDays(MOST_DAYS)))) {
      form.fault("The last day is the first or a later one, at most a year on.");
    }
    String who = form.field("who");
    if (!who.isEmpty() && diary.clinician(who).isEmpty()) {
      form.fault("Nobody of that name is in the diary any more.");
    }
    if (first == null || last == null || !form.right()) {
      return Optional.of(page(diary, form, null, 422));
    }
    DiaryChange change =
        who.isEmpty()
            ? new DiaryChange.Closed(first, last)
            : new DiaryChange.Away(who, first, last);
    LocalDate tomorrow = today.plusDays(1);
    try {
      RebookingAnswer answer =
          RebookingDesk.rebook(
              loaded,
              List.of(change),
              BookingWeights.defaults(),
              tomorrow,
              (last.isAfter(tomorrow) ? last : tomorrow).plusDays(USUAL_DAYS),
              now);
      return Optional.of(
          answer instanceof RebookingAnswer.Rebooked rebooked && request.is("POST")
              ? written(loaded, form, rebooked, now)
              : page(diary, form, answer, 200));
    } catch (RefusedDiaryException refused) {
      refused.findings().forEach(finding -> form.fault(DiaryFindingWords.said(finding, diary)));
      return Optional.of(page(diary, form, null, 422));
    }
  }

  private Reply written(
      LoadedDiary loaded, DeskForm form, RebookingAnswer.Rebooked rebooked, Instant now)
      throws IOException, InvalidDocumentException, RefusedDiaryException {
    Diary diary = loaded.diary();
    if (!code(form, rebooked).equals(form.field("seen"))) {
      DeskForm.changed(diary).forEach(form::fault);
      return page(diary, form, rebooked, 409);
    }
    Signature typed = form.signature(now, false);
    if (typed == null) {
      return page(diary, form, rebooked, 422);
    }
    Signature signed =
        new Signature(
            typed.by(),
            now,
            form.field("who").isEmpty() ? Why.PRACTICE_CLOSED : Why.CLINICIAN_AWAY,
            typed.note());
    if (!RebookingDesk.write(
        folder.root().resolve(PracticeFolder.DIARY), rebooked, signed, folder.files())) {
      LoadedDiary there = folder.diary().orElse(loaded).asOf(clock.instant());
      DeskForm.changed(there.diary()).forEach(form::fault);
      return page(there.diary(), form, null, 409);
    }
    return Reply.to(
        "/diary?week="
            + form.field("first")
            + "&done="
            + (diary.journal().stream().mapToInt(JournalEntry::number).max().orElse(0) + 1));
  }

  /** Tells what would move, of this diary, from anything else. */
  private String code(DeskForm form, RebookingAnswer.Rebooked rebooked) {
    Rebooking what = rebooked.rebooking();
    return folder.id(
        String.join(
            "/",
            "absence",
            form.field("who"),
            form.field("first"),
            form.field("last"),
            rebooked.read().revision(),
            what.moves().toString(),
            what.left().toString(),
            what.broken().toString()));
  }

  private Reply page(Diary diary, DeskForm form, @Nullable RebookingAnswer answer, int status) {
    String who = form.field("who");
    Rebooking what =
        answer instanceof RebookingAnswer.Rebooked rebooked ? rebooked.rebooking() : null;
    if (answer != null && what == null) {
      BookWords.unworkable(answer, diary).lines().forEach(form::fault);
    }
    LocalDate today = LocalDate.ofInstant(clock.instant(), diary.zone());
    String first = form.field("first").isEmpty() ? today.toString() : form.field("first");
    return Reply.html(
        status,
        Views.view(
            "absence",
            new AbsencePage(
                folder.demo(),
                who,
                first,
                form.field("last").isEmpty() ? first : form.field("last"),
                who.isEmpty()
                    ? "The practice is closed"
                    : DiaryWords.clinician(diary, who) + " is away",
                List.copyOf(form.faults()),
                what == null
                    ? List.of()
                    : what.moves().stream().map(one -> RebookText.move(one, diary)).toList(),
                what == null
                    ? List.of()
                    : what.left().stream().map(one -> RebookText.lost(one, diary)).toList(),
                what == null ? List.of() : what.broken().stream().map(BookWords::broken).toList(),
                answer instanceof RebookingAnswer.Rebooked rebooked ? code(form, rebooked) : "",
                DeskForm.people(diary),
                form.by(diary),
                form.field("note"))));
  }
}

package quadrille.diary.desk;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.audit.DiaryRule;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.FreeTimes;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.Journal;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.Signature;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.Why;
import quadrille.diary.calendar.Interval;
import quadrille.diary.desk.ChangeAnswer.Changed;
import quadrille.diary.file.ChangedDiaryException;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.DiaryVerdict;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;

/** Single changes by hand: each is checked, audited and entered in the diary's journal. */
public final class ChangeDesk {

  private final LoadedDiary read;
  private final Diary diary;
  private final Signature signed;

  private ChangeDesk(LoadedDiary read, Signature signed) {
    this.read = read.asOf(signed.at());
    this.diary = this.read.diary();
    this.signed = signed;
  }

  /**
   * Answers what the diary would be after a change. Nothing is written.
   *
   * @param signed who changes it, when and why; holds that run out until then are called off first
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public static ChangeAnswer ask(LoadedDiary read, DeskChange change, Signature signed)
      throws InvalidDocumentException {
    if (signed.because() == Why.OTHER && signed.note() == null) {
      return new ChangeAnswer.NeedsNote();
    }
    return new ChangeDesk(read, signed).answer(change);
  }

  /**
   * Replaces the diary on disk by the new one, whole or not at all.
   *
   * @param store by whose rules it is written
   * @return false where the diary is not the one any more that was read; nothing was written
   * @throws InvalidDocumentException where a calendar cannot be read
   * @throws RefusedDiaryException where the audit finds something; nothing was written
   * @throws IOException where the diary cannot be written; the old one is untouched
   */
  public static boolean write(Path file, Changed changed, FileStore store)
      throws IOException, InvalidDocumentException, RefusedDiaryException {
    try {
      DiaryFile.replace(
          file,
          changed.read(),
          changed.after(),
          changed.settled(),
          store,
          allowed(changed.change(), changed.read().diary()));
      return true;
    } catch (ChangedDiaryException somebodyElse) {
      return false;
    }
  }

  private ChangeAnswer answer(DeskChange change) throws InvalidDocumentException {
    if (change instanceof DeskChange.CallOff off) {
      return coming(off.booking(), booking -> calledOff(off, booking));
    }
    if (change instanceof DeskChange.EndCourse end) {
      return ended(end);
    }
    if (change instanceof DeskChange.Move move) {
      return coming(move.booking(), booking -> moved(move, booking));
    }
    if (change instanceof DeskChange.Hold hold) {
      return coming(hold.booking(), booking -> held(hold, booking));
    }
    if (change instanceof DeskChange.Promise promise) {
      return coming(promise.booking(), booking -> promised(promise, booking));
    }
    if (change instanceof DeskChange.Done done) {
      return coming(
          done.booking(),
          booking ->
              booking.start().isAfter(signed.at())
                  ? new ChangeAnswer.NotBegun(booking)
                  : entered(done, Deed.DONE, with(booking, booking.with(BookingStatus.DONE))));
    }
    if (change instanceof DeskChange.Undo undo) {
      return undone(undo);
    }
    return forgotten((DeskChange.Forget) change);
  }

  /** What is done with a booking that is still to come. */
  private interface Verb {
    ChangeAnswer with(Booking booking) throws InvalidDocumentException;
  }

  private ChangeAnswer coming(String id, Verb verb) throws InvalidDocumentException {
    Optional<Booking> booking = diary.booking(id);
    if (booking.isEmpty()) {
      return new ChangeAnswer.NoSuchBooking(id);
    }
    return booking.get().coming()
        ? verb.with(booking.get())
        : new ChangeAnswer.NotComing(id, booking.get().status());
  }

  private ChangeAnswer calledOff(DeskChange.CallOff off, Booking booking)
      throws InvalidDocumentException {
    boolean missed = signed.because() == Why.PATIENT_MISSED;
    if (missed && booking.start().isAfter(signed.at())) {
      return new ChangeAnswer.NotBegun(booking);
    }
    Diary after =
        with(booking, booking.with(missed ? BookingStatus.MISSED : BookingStatus.CANCELLED));
    if (off.later()) {
      after =
          each(
              after,
              one ->
                  one.coming()
                          && one.caseName().equals(booking.caseName())
                          && one.visit() > booking.visit()
                      ? one.with(BookingStatus.CANCELLED)
                      : one);
    }
    return entered(off, Deed.CALL_OFF, after);
  }

  private ChangeAnswer ended(DeskChange.EndCourse end) throws InvalidDocumentException {
    CourseRequest course = diary.course(end.caseName()).orElse(null);
    if (course == null) {
      return noSuchCase(end.caseName());
    }
    if (course.ended() != null) {
      return new ChangeAnswer.NothingChanges();
    }
    LocalDate today = signed.at().atZone(diary.zone()).toLocalDate();
    // What has begun was done or missed, which somebody has to say.
    Diary after =
        each(
            diary,
            one ->
                one.coming()
                        && one.caseName().equals(course.caseName())
                        && one.start().isAfter(signed.at())
                    ? one.with(BookingStatus.CANCELLED)
                    : one);
    List<CourseRequest> courses = new ArrayList<>(diary.courses());
    courses.set(courses.indexOf(course), course.withEnded(today));
    return entered(end, Deed.END, after.withCourses(courses));
  }

  private ChangeAnswer moved(DeskChange.Move move, Booking booking)
      throws InvalidDocumentException {
    String who = move.clinician() == null ? booking.clinician() : move.clinician();
    if (move.clinician() != null && diary.clinician(who).isEmpty()) {
      return new ChangeAnswer.NoSuchClinician(
          who, diary.clinicians().stream().map(Clinician::id).toList());
    }
    if (move.chair() != null && diary.chair(move.chair()).isEmpty()) {
      return new ChangeAnswer.NoSuchChair(
          move.chair(), diary.chairs().stream().map(Chair::id).toList());
    }
    if (!move.past() && move.start().isBefore(signed.at())) {
      return new ChangeAnswer.Past(move.start());
    }
    Booking moved =
        booking.at(
            move.start(),
            who,
            move.chair() == null ? chair(booking, move.start()) : move.chair(),
            injectors(booking, move.start(), who));
    return moved.equals(booking)
        ? new ChangeAnswer.NothingChanges()
        : entered(move, Deed.MOVE, with(booking, moved.withoutHoldOver(signed.at())));
  }

  /**
   * Who comes to inject where a booking is moved to: whoever did, or else the first who is free
   * then; whoever did where nobody is.
   */
  private List<InjectorCall> injectors(Booking booking, Instant start, String who)
      throws InvalidDocumentException {
    VisitRequest visit =
        diary
            .course(booking.caseName())
            .flatMap(course -> course.visit(booking.visit()))
            .filter(asked -> diary.clinician(who).map(asked::aided).orElse(false))
            .orElse(null);
    if (visit == null) {
      return diary.clinician(who).map(Clinician::mayInject).orElse(false)
          ? List.of()
          : booking.injectors();
    }
    FreeTimes times = without(booking, Interval.of(start, booking.minutes()));
    List<InjectorCall> calls = new ArrayList<>();
    for (NeedleTime needle : visit.needles()) {
      Set<String> ids = new LinkedHashSet<>();
      calls.forEach(call -> ids.add(call.clinician()));
      booking.injectors().forEach(call -> ids.add(call.clinician()));
      diary.clinicians().forEach(one -> ids.add(one.id()));
      Interval time = Interval.of(start.plusSeconds(60L * needle.from()), needle.minutes());
      String free =
          ids.stream()
              .filter(id -> !id.equals(who) && free(id, time, times))
              .findFirst()
              .orElse(null);
      if (free == null) {
        return booking.injectors();
      }
      calls.add(new InjectorCall(free, needle.from(), needle.to()));
    }
    return calls;
  }

  private boolean free(String id, Interval time, FreeTimes times) {
    return diary
        .clinician(id)
        .filter(Clinician::mayInject)
        .map(
            one ->
                times.ofClinician(one, times.day(time.start()), times.day(time.end())).stream()
                    .anyMatch(free -> free.contains(time)))
        .orElse(false);
  }

  /** What is free around a span once a booking is gone from its place. */
  private FreeTimes without(Booking booking, Interval time) throws InvalidDocumentException {
    List<Booking> others = new ArrayList<>(diary.bookings());
    others.remove(booking);
    return new FreeTimes(read.with(diary.withBookings(others)).over(time));
  }

  /**
   * The booking's own chair if it is free then, or else the first that is; or its own after all.
   */
  private String chair(Booking booking, Instant start) throws InvalidDocumentException {
    Interval time = Interval.of(start, booking.minutes());
    FreeTimes times = without(booking, time);
    LocalDate first = times.day(time.start());
    LocalDate last = times.day(time.end());
    List<String> ids = new ArrayList<>(List.of(booking.chair()));
    diary.chairs().forEach(chair -> ids.add(chair.id()));
    return ids.stream()
        .filter(
            id ->
                diary
                    .chair(id)
                    .map(
                        chair ->
                            times.ofChair(chair, first, last).stream()
                                .anyMatch(free -> free.contains(time)))
                    .orElse(false))
        .findFirst()
        .orElse(booking.chair());
  }

  private ChangeAnswer held(DeskChange.Hold hold, Booking booking) throws InvalidDocumentException {
    Instant until = hold.until();
    if (until != null && (!until.isAfter(signed.at()) || until.isAfter(booking.start()))) {
      return new ChangeAnswer.NoHold(booking);
    }
    Booking held = booking.heldUntil(until);
    return held.equals(booking)
        ? new ChangeAnswer.NothingChanges()
        : entered(hold, Deed.HOLD, with(booking, held));
  }

  private ChangeAnswer promised(DeskChange.Promise promise, Booking booking)
      throws InvalidDocumentException {
    if (booking.status() == BookingStatus.PROMISED) {
      return new ChangeAnswer.NothingChanges();
    }
    return diary.course(booking.caseName()).map(CourseRequest::provisional).orElse(false)
        ? new ChangeAnswer.Provisional(booking)
        : entered(promise, Deed.PROMISE, with(booking, booking.with(BookingStatus.PROMISED)));
  }

  private ChangeAnswer undone(DeskChange.Undo undo) throws InvalidDocumentException {
    JournalEntry last = Journal.last(diary).orElse(null);
    if (last == null) {
      return new ChangeAnswer.NothingToUndo();
    }
    Diary after = Journal.undone(diary, last, signed).orElse(null);
    if (after == null) {
      return new ChangeAnswer.ChangedSince(last);
    }
    return Journal.asOf(after, signed.at()).equals(after)
        ? judged(undo, after)
        : new ChangeAnswer.HoldOver(last);
  }

  private ChangeAnswer forgotten(DeskChange.Forget forget) throws InvalidDocumentException {
    boolean known =
        diary.course(forget.caseName()).isPresent()
            || diary.journal().stream().anyMatch(one -> one.cases().contains(forget.caseName()));
    if (!known) {
      return noSuchCase(forget.caseName());
    }
    List<Booking> coming =
        diary.bookings().stream()
            .filter(one -> one.caseName().equals(forget.caseName()))
            .filter(one -> one.coming() && one.end().isAfter(signed.at()))
            .toList();
    return coming.isEmpty()
        ? judged(forget, Journal.forgotten(diary, forget.caseName(), signed))
        : new ChangeAnswer.StillComing(forget.caseName(), coming);
  }

  private ChangeAnswer noSuchCase(String caseName) {
    return new ChangeAnswer.NoSuchCase(
        caseName, diary.courses().stream().map(CourseRequest::caseName).toList());
  }

  private Diary with(Booking old, Booking now) {
    return each(diary, one -> one.equals(old) ? now : one);
  }

  private static Diary each(Diary diary, UnaryOperator<Booking> change) {
    return diary.withBookings(diary.bookings().stream().map(change).toList());
  }

  private ChangeAnswer entered(DeskChange change, Deed did, Diary after)
      throws InvalidDocumentException {
    return judged(change, Journal.entered(diary, after, did, signed, Map.of()));
  }

  private ChangeAnswer judged(DeskChange change, Diary after) throws InvalidDocumentException {
    Instant settled = settled(change);
    DiaryVerdict verdict = DiaryFile.verdict(read, after, settled);
    List<DiaryFinding> made =
        verdict.made().stream().filter(allowed(change, diary).negate()).toList();
    return made.isEmpty()
        ? new Changed(read, change, after, verdict, settled)
        : new ChangeAnswer.Stopped(made);
  }

  /** What is put at a past time on purpose is judged as well. */
  private Instant settled(DeskChange change) {
    return change instanceof DeskChange.Move move && move.start().isBefore(signed.at())
        ? move.start()
        : signed.at();
  }

  /**
   * What a change may make: whoever calls off is not kept by the visits that follow, which are
   * shown; and a change is taken back as a person says.
   */
  private static Predicate<DiaryFinding> allowed(DeskChange change, Diary before) {
    if (change instanceof DeskChange.Undo undo && undo.anyway()) {
      return finding -> true;
    }
    @Nullable String caseName =
        change instanceof DeskChange.CallOff off
            ? before.booking(off.booking()).map(Booking::caseName).orElse(null)
            : null;
    return finding ->
        finding.rule() == DiaryRule.ORDER
            && (change instanceof DeskChange.Undo
                || before
                    .booking(finding.booking())
                    .map(one -> one.caseName().equals(caseName))
                    .orElse(false));
  }
}

package quadrille.diary.desk;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Journal;
import quadrille.diary.book.Signature;
import quadrille.diary.booking.BatchBooker;
import quadrille.diary.booking.BookingRemedies;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.Offers;
import quadrille.diary.booking.Taking;
import quadrille.diary.calendar.Interval;
import quadrille.diary.desk.BookingAnswer.Asked;
import quadrille.diary.desk.BookingAnswer.Offered;
import quadrille.diary.file.ChangedDiaryException;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.course.Course;

/**
 * Booking at the front desk: offers for courses, audited, and one of them taken.
 *
 * <pre>{@code
 * BookingAnswer answer = BookingDesk.offer(DiaryFile.read(file), order);
 * if (answer instanceof BookingAnswer.Offered offered) {
 *   BookingTaken taken = BookingDesk.take(file, offered, 1, signed, FileStore.USUAL);
 * }
 * }</pre>
 */
public final class BookingDesk {

  private static final int CODE_LENGTH = 8;

  private BookingDesk() {}

  /**
   * Offers times. A plan of a course that the diary knows is carried on: what took place stays, and
   * so does every booking that still holds its visit.
   *
   * @throws InvalidDocumentException with every fault of the diary's or of the patient's calendars
   * @throws RefusedDiaryException where the audit finds something in the diary that an offer leads
   *     to; then none is given
   */
  public static BookingAnswer offer(LoadedDiary read, BookingOrder order)
      throws InvalidDocumentException, RefusedDiaryException {
    return offer(read, order, BatchBooker.Watch.nobody());
  }

  /**
   * The same, with somebody who looks on where several courses are booked together, and may end the
   * search with what it has.
   */
  public static BookingAnswer offer(LoadedDiary read, BookingOrder order, BatchBooker.Watch watch)
      throws InvalidDocumentException, RefusedDiaryException {
    Diary own = read.diary();
    String liked = order.patient().clinician();
    if (liked != null && own.clinician(liked).isEmpty()) {
      return new BookingAnswer.UnknownClinician(
          liked, own.clinicians().stream().map(Clinician::id).toList());
    }
    // What would help may lie after the last day, and must not be busy there.
    Interval known =
        LoadedDiary.days(own, order.first(), order.last().plusDays(BookingRemedies.LATER_DAYS));
    PatientWishes.Reading patient = order.patient().reading(own, known);
    List<CourseRequest> requests = new ArrayList<>();
    List<CarriedOn.CalledOff> calledOff = new ArrayList<>();
    List<CarriedOn.Restated> restated = new ArrayList<>();
    Set<String> cases = new HashSet<>();
    for (Course plan : order.plans()) {
      if (plan.visits().isEmpty()) {
        return new BookingAnswer.NoVisit(plan.caseName());
      }
      CourseRequest asks = order.over(order.patient().request(own, plan, order.first()));
      Optional<Booking> other = CarriedOn.another(own, asks);
      if (other.isPresent()) {
        return new BookingAnswer.OtherCourse(other.get(), own);
      }
      CarriedOn carried = CarriedOn.of(own, plan, asks);
      Diary over = carried.over(own);
      CourseRequest request = carried.request();
      if (over.unbooked(request).isEmpty() && carried.restated().isEmpty()) {
        return new BookingAnswer.AllBooked(plan.caseName(), carried.calledOff(), own);
      }
      if (!cases.add(plan.caseName())) {
        return new BookingAnswer.SameCase(plan.caseName());
      }
      own = over;
      calledOff.addAll(carried.calledOff());
      restated.addAll(carried.restated());
      requests.add(
          order.patient().calendars().isEmpty()
              ? request
              : request.withAvailability(
                  request.availability().withCalendars(patient.busy(), known)));
    }
    if (order.waiting()) {
      String only = order.only();
      Set<String> open = own.unbooked().keySet();
      for (CourseRequest request : own.courses()) {
        boolean meant = only == null || only.equals(request.caseName());
        if (meant && open.contains(request.caseName()) && cases.add(request.caseName())) {
          requests.add(only == null ? request : order.over(order.patient().over(request)));
        }
      }
    }
    if (requests.isEmpty()) {
      return new BookingAnswer.NobodyWaits();
    }
    Diary whole = new LoadedDiary(own, read.revision(), read.calendars()).over(known);
    for (CourseRequest request : requests) {
      whole = Taking.asking(whole, request);
    }
    return sought(
        new Asked(order, read, own, whole, requests, calledOff, restated, patient.notes()), watch);
  }

  private static BookingAnswer sought(Asked asked, BatchBooker.Watch watch)
      throws InvalidDocumentException, RefusedDiaryException {
    BookingOrder order = asked.order();
    List<Offer> offers = new ArrayList<>();
    List<String> left = List.of();
    CourseRequest one = asked.requests().get(0);
    if (asked.requests().size() == 1 && asked.whole().unbooked(one).isEmpty()) {
      offers.add(Offers.standing(asked.whole(), one));
    } else if (asked.requests().size() == 1) {
      offers.addAll(
          Offers.of(
              asked.whole(), one, order.weights(), order.first(), order.last(), order.offers()));
    } else {
      BatchBooker.Booked booked =
          BatchBooker.book(
              asked.whole(), asked.requests(), order.weights(), order.first(), order.last(), watch);
      left = booked.left();
      if (!booked.visits().isEmpty()) {
        offers.add(together(booked, asked.whole()));
      }
    }
    if (offers.isEmpty()) {
      return new BookingAnswer.NoWay(
          asked,
          asked.requests().size() > 1
              ? List.of()
              : BookingRemedies.of(
                  asked.whole(), one, order.weights(), order.first(), order.last()));
    }
    for (Offer offer : offers) {
      audit(asked.read(), after(asked, offer), settled(order, asked.read()));
    }
    boolean cutShort = asked.requests().size() > 1 && watch.stop().asked();
    return new Offered(asked, offers, left, code(asked.read().revision(), offers), cutShort);
  }

  /**
   * Takes an offer: replaces the diary on disk, whole or not at all, if it still is the one that
   * the offers were made from; or else asks again.
   *
   * @param number of the offer, from 1
   * @param signed who takes it, when and why
   * @param store by whose rules the diary is written
   * @throws InvalidDocumentException where the diary on disk, or a calendar, has become invalid
   * @throws RefusedDiaryException where the audit finds something; nothing was written
   * @throws IOException where the diary cannot be written; the old one is untouched
   */
  public static BookingTaken take(
      Path file, Offered offered, int number, Signature signed, FileStore store)
      throws IOException, InvalidDocumentException, RefusedDiaryException {
    LoadedDiary before = offered.asked().read();
    try {
      Diary after =
          Journal.entered(
              before.diary(), offered.after(number), Deed.BOOK, signed, offered.asked().why());
      DiaryFile.replace(file, before, after, settled(offered.asked().order(), before), store);
      return new BookingTaken.Done();
    } catch (ChangedDiaryException changed) {
      LoadedDiary now = DiaryFile.read(file, store).asOf(signed.at());
      return new BookingTaken.Changed(
          DiaryDifference.between(before.diary(), now.diary()),
          offer(now, offered.asked().order()));
    }
  }

  static Diary after(Asked asked, Offer offer) {
    Diary after = asked.own();
    for (CourseRequest request : asked.requests()) {
      after = Taking.asking(after, request);
    }
    return Taking.booked(after, offer.visits(), asked.order().holdUntil());
  }

  /** What lies before the first day on which something may be booked is history here. */
  private static Instant settled(BookingOrder order, LoadedDiary read) {
    return order.first().atStartOfDay(read.diary().zone()).toInstant();
  }

  /** Looks at a diary as writing it would. */
  static void audit(LoadedDiary from, Diary diary, Instant now)
      throws InvalidDocumentException, RefusedDiaryException {
    List<DiaryFinding> findings = DiaryFile.made(from, diary, now);
    if (!findings.isEmpty()) {
      throw new RefusedDiaryException(findings);
    }
  }

  /** Many courses' bookings as one offer. */
  private static Offer together(BatchBooker.Booked booked, Diary diary) {
    LocalDate end =
        booked.visits().stream()
            .map(visit -> visit.start().atZone(diary.zone()).toLocalDate())
            .max(LocalDate::compareTo)
            .orElseThrow();
    return new Offer(booked.visits(), List.of(), end, end, Map.of());
  }

  /** By the diary that the offers were made from, and by what they say. */
  private static String code(String revision, List<Offer> offers) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      digest.update(revision.getBytes(UTF_8));
      for (Offer offer : offers) {
        digest.update(offer.visits().toString().getBytes(UTF_8));
      }
      return HexFormat.of().formatHex(digest.digest()).substring(0, CODE_LENGTH);
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("Every Java platform has SHA-256.", impossible);
    }
  }
}

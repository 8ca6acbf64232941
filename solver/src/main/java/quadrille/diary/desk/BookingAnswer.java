package quadrille.diary.desk;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import quadrille.diary.book.Booking;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Why;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.Remedy;
import quadrille.diary.file.LoadedDiary;

/** What {@link BookingDesk#offer} answers: offers, that there is none, or why it was not sought. */
public sealed interface BookingAnswer {

  /**
   * The diary with what is asked of it.
   *
   * @param order as it was given
   * @param read the diary as it was read
   * @param own without what its calendars take, and without bookings that are called off
   * @param whole with what its calendars take, and with what the courses ask for
   * @param requests in the order of the plans, then those who wait; at least one
   * @param calledOff bookings that hold no visit of their course any more
   * @param restated bookings that stay, but are promised now, or held only
   * @param notes what had to be taken for something in the patient's calendars
   */
  record Asked(
      BookingOrder order,
      LoadedDiary read,
      Diary own,
      Diary whole,
      List<CourseRequest> requests,
      List<CarriedOn.CalledOff> calledOff,
      List<CarriedOn.Restated> restated,
      List<PatientWishes.Note> notes) {

    public Asked {
      requests = List.copyOf(requests);
      calledOff = List.copyOf(calledOff);
      restated = List.copyOf(restated);
      notes = List.copyOf(notes);
    }

    /** Why bookings that were there change, by their ids. */
    Map<String, Why> why() {
      Map<String, Why> why = new LinkedHashMap<>();
      calledOff.forEach(one -> why.put(one.booking().id(), Why.PLAN_CHANGED));
      restated.forEach(one -> why.put(one.booking().id(), Why.PLAN_CHANGED));
      return why;
    }
  }

  /**
   * Offers that have passed the audit.
   *
   * @param offers at least one; just one where several courses are booked together
   * @param left cases for which no place was found among the others
   * @param code tells these offers of this diary from any others
   * @param cutShort whether the search was asked to end before it was done, so that there may be a
   *     cheaper way; such offers may differ from one run to the next
   */
  record Offered(Asked asked, List<Offer> offers, List<String> left, String code, boolean cutShort)
      implements BookingAnswer {

    public Offered {
      offers = List.copyOf(offers);
      left = List.copyOf(left);
    }

    /**
     * An offer.
     *
     * @param number from 1
     */
    public Offer offer(int number) {
      return offers.get(number - 1);
    }

    /** The diary with an offer booked. */
    public Diary after(int number) {
      return BookingDesk.after(asked, offer(number));
    }

    /** What an offer books, and the bookings that are called off or said otherwise with it. */
    public List<Booking> fresh(int number) {
      List<Booking> fresh = new ArrayList<>(after(number).bookings());
      fresh.removeAll(new LinkedHashSet<>(asked.read().diary().bookings()));
      return fresh;
    }
  }

  /**
   * No booking keeps every rule.
   *
   * @param remedies single changes that help; none are sought where several courses are booked
   */
  record NoWay(Asked asked, List<Remedy> remedies) implements BookingAnswer {
    public NoWay {
      remedies = List.copyOf(remedies);
    }
  }

  /**
   * A plan has no visit to book.
   *
   * @param caseName the plan's
   */
  record NoVisit(String caseName) implements BookingAnswer {}

  /**
   * All visits of a plan are booked already.
   *
   * @param caseName the plan's
   * @param unneeded bookings that stand though they hold no visit of it any more
   */
  record AllBooked(String caseName, List<CarriedOn.CalledOff> unneeded, Diary diary)
      implements BookingAnswer {
    public AllBooked {
      unneeded = List.copyOf(unneeded);
    }
  }

  /** No plan was given, and no course in the diary waits. */
  record NobodyWaits() implements BookingAnswer {}

  /**
   * Two plans are of one case.
   *
   * @param caseName theirs
   */
  record SameCase(String caseName) implements BookingAnswer {}

  /**
   * A plan asks again for a visit that took place, and for another one than took place: it is of
   * another course, or of another patient with the same case. Of a patient, diaries and plans hold
   * nothing else by which they could be told apart.
   *
   * @param taken the booking that took place
   */
  record OtherCourse(Booking taken, Diary diary) implements BookingAnswer {}

  /**
   * The patient would rather see somebody whom the diary does not know.
   *
   * @param clinician id
   * @param known ids that the diary has
   */
  record UnknownClinician(String clinician, List<String> known) implements BookingAnswer {
    public UnknownClinician {
      known = List.copyOf(known);
    }
  }
}

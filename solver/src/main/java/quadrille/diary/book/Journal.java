package quadrille.diary.book;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Writes and reads the journal of a diary. An entry is the difference between a diary before and
 * after a change; taken back, it gives the diary before to the byte, but for the journal itself.
 */
public final class Journal {

  /** Who calls off what was held until a time. */
  private static final String DIARY = "diary";

  private Journal() {}

  /**
   * The diary after a change, with its entry.
   *
   * @param after holds everything that was before in its place, and what is new behind it; bookings
   *     may be in any order
   * @param why of a booking, by its id, where the signature does not say it
   */
  public static Diary entered(
      Diary before, Diary after, Deed did, Signature signed, Map<String, Why> why) {
    Diary ordered = inOrder(before, after);
    return signed(ordered, entry(before, ordered, did, signed, 0, why));
  }

  private static Diary signed(Diary diary, JournalEntry entry) {
    List<JournalEntry> journal = new ArrayList<>(diary.journal());
    journal.add(entry);
    return diary.withJournal(journal);
  }

  /** What was there before keeps its place, so that taking the change back restores it. */
  private static Diary inOrder(Diary before, Diary after) {
    Map<String, Integer> places = new LinkedHashMap<>();
    before.bookings().forEach(one -> places.put(one.id(), places.size()));
    List<Booking> bookings = new ArrayList<>(after.bookings());
    bookings.sort(Comparator.comparing(one -> places.getOrDefault(one.id(), Integer.MAX_VALUE)));
    return after.withBookings(bookings);
  }

  private static JournalEntry entry(
      Diary before, Diary after, Deed did, Signature signed, int undoes, Map<String, Why> why) {
    List<JournalEntry.BookingChange> bookings = new ArrayList<>();
    Map<String, Booking> was = byName(before.bookings(), Booking::id);
    Map<String, Booking> is = byName(after.bookings(), Booking::id);
    for (String id : both(was, is)) {
      Booking from = was.get(id);
      Booking to = is.get(id);
      if (from == null || !from.equals(to)) {
        bookings.add(new JournalEntry.BookingChange(why.get(id), from, to));
      }
    }
    List<JournalEntry.CourseChange> courses = new ArrayList<>();
    Map<String, CourseRequest> asked = byName(before.courses(), CourseRequest::caseName);
    Map<String, CourseRequest> asks = byName(after.courses(), CourseRequest::caseName);
    for (String name : both(asked, asks)) {
      CourseRequest from = asked.get(name);
      CourseRequest to = asks.get(name);
      if (from == null || !from.equals(to)) {
        courses.add(new JournalEntry.CourseChange(from, to));
      }
    }
    List<JournalEntry.Absence> absences = new ArrayList<>();
    absences(null, before.closed(), after.closed(), absences);
    for (Clinician clinician : after.clinicians()) {
      absences(
          clinician.id(),
          before.clinician(clinician.id()).map(Clinician::off).orElse(List.of()),
          clinician.off(),
          absences);
    }
    return new JournalEntry(
        before.journal().stream().mapToInt(JournalEntry::number).max().orElse(0) + 1,
        signed.at().truncatedTo(ChronoUnit.MINUTES),
        signed.by(),
        did,
        signed.because(),
        signed.note(),
        undoes,
        bookings,
        courses,
        absences);
  }

  private static void absences(
      @Nullable String clinician,
      List<TimeOff> before,
      List<TimeOff> after,
      List<JournalEntry.Absence> absences) {
    int same = Math.min(before.size(), after.size());
    for (TimeOff off : after.subList(same, after.size())) {
      absences.add(new JournalEntry.Absence(clinician, off, false));
    }
    for (TimeOff off : before.subList(same, before.size())) {
      absences.add(new JournalEntry.Absence(clinician, off, true));
    }
  }

  private static <T> Map<String, T> byName(List<T> list, Function<T, String> name) {
    Map<String, T> map = new LinkedHashMap<>();
    list.forEach(one -> map.put(name.apply(one), one));
    return map;
  }

  private static Set<String> both(Map<String, ?> one, Map<String, ?> other) {
    Set<String> names = new LinkedHashSet<>(one.keySet());
    names.addAll(other.keySet());
    return names;
  }

  // ---- taking back

  /** The last change that can be taken back and has not been. */
  public static Optional<JournalEntry> last(Diary diary) {
    Set<Integer> undone = new LinkedHashSet<>();
    diary.journal().forEach(entry -> undone.add(entry.undoes()));
    JournalEntry last = null;
    for (JournalEntry entry : diary.journal()) {
      if (entry.did().undoable() && !undone.contains(entry.number())) {
        last = entry;
      }
    }
    return Optional.ofNullable(last);
  }

  /**
   * The diary without what an entry changed.
   *
   * @return empty where something of it is not as the entry left it
   */
  public static Optional<Diary> undone(Diary diary, JournalEntry entry, Signature signed) {
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    for (JournalEntry.BookingChange change : entry.bookings()) {
      if (!back(bookings, change.from(), change.to())) {
        return Optional.empty();
      }
    }
    List<CourseRequest> courses = new ArrayList<>(diary.courses());
    for (JournalEntry.CourseChange change : entry.courses()) {
      if (!back(courses, change.from(), change.to())) {
        return Optional.empty();
      }
    }
    List<TimeOff> closed = new ArrayList<>(diary.closed());
    List<Clinician> clinicians = new ArrayList<>(diary.clinicians());
    for (JournalEntry.Absence absence : entry.absences()) {
      if (absence.clinician() == null) {
        if (!takenAway(closed, absence.off())) {
          return Optional.empty();
        }
        continue;
      }
      Clinician who =
          clinicians.stream()
              .filter(one -> one.id().equals(absence.clinician()))
              .findFirst()
              .orElse(null);
      List<TimeOff> off = new ArrayList<>(who == null ? List.of() : who.off());
      if (who == null || !takenAway(off, absence.off())) {
        return Optional.empty();
      }
      clinicians.set(clinicians.indexOf(who), who.withOff(off));
    }
    Diary back =
        diary
            .withBookings(bookings)
            .withCourses(courses)
            .withClosed(closed)
            .withClinicians(clinicians);
    return Optional.of(
        signed(back, entry(diary, back, Deed.UNDO, signed, entry.number(), Map.of())));
  }

  private static <T> boolean back(List<T> list, @Nullable T from, @Nullable T to) {
    int at = to == null ? -1 : list.indexOf(to);
    if (at < 0) {
      return false;
    }
    if (from == null) {
      list.remove(at);
    } else {
      list.set(at, from);
    }
    return true;
  }

  private static boolean takenAway(List<TimeOff> list, TimeOff off) {
    int at = list.lastIndexOf(off);
    if (at >= 0) {
      list.remove(at);
    }
    return at >= 0;
  }

  // ---- what others were told

  /** How often changes of a booking were taken back, by its id. */
  static Map<String, Integer> undone(Diary diary) {
    Map<String, Integer> times = new LinkedHashMap<>();
    for (JournalEntry entry : diary.journal()) {
      if (entry.did() == Deed.UNDO) {
        entry.bookings().forEach(change -> times.merge(change.any().id(), 1, Integer::sum));
      }
    }
    return times;
  }

  /**
   * All bookings of a diary, and behind them those that once stood there and were taken back, as
   * called off: whoever was told of them is told.
   */
  public static List<Booking> told(Diary diary) {
    Map<String, Booking> gone = new LinkedHashMap<>();
    for (JournalEntry entry : diary.journal()) {
      for (JournalEntry.BookingChange change : entry.bookings()) {
        Booking from = change.from();
        if (change.to() == null && from != null && diary.booking(from.id()).isEmpty()) {
          gone.put(from.id(), from.with(BookingStatus.CANCELLED));
        }
      }
    }
    List<Booking> all = new ArrayList<>(diary.bookings());
    all.addAll(gone.values());
    return all;
  }

  /** When the diary was last changed, as far as its journal tells. */
  public static Optional<Instant> changed(Diary diary) {
    return diary.journal().stream().map(JournalEntry::at).max(Comparator.naturalOrder());
  }

  /** Why a booking was called off or missed; empty where nobody said so. */
  public static Optional<Why> calledOff(Diary diary, String booking) {
    Why why = null;
    for (JournalEntry entry : diary.journal()) {
      for (JournalEntry.BookingChange change : entry.bookings()) {
        Booking to = change.to();
        if (to != null && to.id().equals(booking) && !to.status().takesTime()) {
          why = change.because() == null ? entry.because() : change.because();
        }
      }
    }
    return Optional.ofNullable(why);
  }

  // ---- time and patients that go

  /**
   * The diary at a moment: what was held until then or before is called off, and that is entered.
   * What had begun before its hold ended is not: somebody has to say what became of it.
   */
  public static Diary asOf(Diary diary, Instant now) {
    List<Booking> bookings =
        diary.bookings().stream()
            .map(
                booking -> {
                  Instant until = booking.until();
                  return until == null || until.isAfter(now) || until.isAfter(booking.start())
                      ? booking
                      : booking.with(BookingStatus.CANCELLED);
                })
            .toList();
    return bookings.equals(diary.bookings())
        ? diary
        : entered(
            diary,
            diary.withBookings(bookings),
            Deed.EXPIRE,
            new Signature(DIARY, now, Why.HOLD_OVER, null),
            Map.of());
  }

  /** The diary without a course, its bookings, and what the journal told of it. */
  public static Diary forgotten(Diary diary, String caseName, Signature signed) {
    Diary gone =
        diary
            .withCourses(
                diary.courses().stream().filter(one -> !one.caseName().equals(caseName)).toList())
            .withBookings(
                diary.bookings().stream().filter(one -> !one.caseName().equals(caseName)).toList());
    String note = signed.note();
    Signature nameless =
        note != null && JournalEntry.names(note, caseName)
            ? new Signature(signed.by(), signed.at(), signed.because(), null)
            : signed;
    JournalEntry entry = entry(gone, gone, Deed.FORGET, nameless, 0, Map.of());
    return signed(
        gone.withJournal(
            diary.journal().stream()
                .map(one -> one.without(caseName))
                .filter(one -> !one.empty() || one.did() == Deed.FORGET)
                .toList()),
        entry);
  }
}

package quadrille.diary.booking.problem;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.Diary;
import quadrille.diary.book.FreeTimes;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;

/**
 * The problem, of the diary's side: when each clinician and each chair can be used at all, whatever
 * is booked; when visits may start; and the sets that are counted. Clinicians, chairs and sets go
 * by their place in the diary's lists.
 */
public final class BookingCase {

  private final Diary diary;
  private final BookingWeights weights;
  private final TimeLine time;
  private final List<MinuteSet> clinicianShut = new ArrayList<>();
  private final List<MinuteSet> chairShut = new ArrayList<>();
  private final MinuteSet starts;
  private final List<BitSet> booked = new ArrayList<>();
  private final int night;

  /**
   * @param first day on which something may be booked
   * @param last such day, not before the first
   */
  public BookingCase(Diary diary, BookingWeights weights, LocalDate first, LocalDate last) {
    this.diary = diary;
    this.weights = weights;
    this.time = new TimeLine(diary.zone(), first, last);
    FreeTimes unbooked = new FreeTimes(diary.withBookings(List.of()));
    List<Interval> working = new ArrayList<>();
    for (Clinician clinician : diary.clinicians()) {
      List<Interval> open = unbooked.ofClinician(clinician, first, last);
      clinicianShut.add(time.shut(open));
      working.addAll(open);
    }
    for (int i = 0; i < clinicians(); i++) {
      booked.add(new BitSet());
    }
    for (Booking booking : diary.bookings()) {
      int start = Math.max(0, time.minute(booking.start()));
      int end = Math.min(time.length(), time.minuteUp(booking.end()));
      if (booking.status().takesTime() && start < end) {
        booked.get(clinician(booking.clinician())).set(start, end);
      }
    }
    for (Chair chair : diary.chairs()) {
      chairShut.add(time.shut(unbooked.ofChair(chair, first, last)));
    }
    BitSet startable = new BitSet();
    for (Interval span : Intervals.union(working)) {
      for (Instant start : unbooked.starts(span, 1)) {
        startable.set(time.minute(start));
      }
    }
    this.starts = new MinuteSet(startable);
    this.night = shortestNight();
  }

  /**
   * The shortest time between the end of any day's work and the beginning of the next, in minutes;
   * as little where work goes on over midnight.
   */
  public int night() {
    return night;
  }

  private int shortestNight() {
    BitSet open = new BitSet(time.length());
    for (MinuteSet shut : clinicianShut) {
      BitSet working = shut.copy();
      working.flip(0, time.length());
      open.or(working);
    }
    int shortest = Integer.MAX_VALUE;
    for (int day = 1; day < time.days(); day++) {
      int last = open.previousSetBit(time.dayStart(day) - 1);
      int next = open.nextSetBit(time.dayStart(day));
      if (last >= 0 && next >= 0) {
        shortest = Math.min(shortest, next - last - 1);
      }
    }
    return shortest;
  }

  /**
   * Points for the minutes that bookings leave over on a clinician's day and nobody can use; an
   * open span in which nothing is booked has none.
   *
   * @param visits that stand on that day beside the diary's bookings
   */
  public long leftOver(int clinician, int day, List<? extends Commitment> visits) {
    int from = time.dayStart(day);
    int to = time.dayStart(day + 1);
    BitSet busy = booked.get(clinician).get(from, to);
    for (Commitment visit : visits) {
      busy.set(Math.max(0, visit.start() - from), Math.min(to - from, visit.end() - from));
    }
    int before = leftOverDay(clinician, booked.get(clinician).get(from, to), from, to);
    int after = leftOverDay(clinician, busy, from, to);
    return (long) weights.sliverMinute() * (after - before);
  }

  private int leftOverDay(int clinician, BitSet busy, int from, int to) {
    MinuteSet shut = clinicianShut.get(clinician);
    int minutes = 0;
    int at = from;
    while (at < to) {
      int open = shut.nextOutside(at);
      if (open >= to) {
        break;
      }
      int next = shut.next(open);
      int end = next < 0 || next > to ? to : next;
      minutes += leftOver(busy, open - from, end - from);
      at = end;
    }
    return minutes;
  }

  private int leftOver(BitSet busy, int from, int to) {
    int first = busy.nextSetBit(from);
    if (first < 0 || first >= to) {
      return 0;
    }
    int minutes = 0;
    int at = from;
    while (at < to) {
      int next = busy.nextSetBit(at);
      int end = next < 0 || next > to ? to : next;
      if (end - at < weights.usableMinutes()) {
        minutes += end - at;
      }
      at = busy.nextClearBit(end);
    }
    return minutes;
  }

  public Diary diary() {
    return diary;
  }

  public BookingWeights weights() {
    return weights;
  }

  public TimeLine time() {
    return time;
  }

  public int clinicians() {
    return clinicianShut.size();
  }

  public int chairs() {
    return chairShut.size();
  }

  /** Minutes in which a clinician does not work or has something else than bookings. */
  public MinuteSet clinicianShut(int clinician) {
    return clinicianShut.get(clinician);
  }

  /** Minutes in which a chair is out of use for anything but bookings. */
  public MinuteSet chairShut(int chair) {
    return chairShut.get(chair);
  }

  /** Minutes at which a visit may start, if somebody works then. */
  public MinuteSet starts() {
    return starts;
  }

  public int clinician(String id) {
    for (int i = 0; i < diary.clinicians().size(); i++) {
      if (diary.clinicians().get(i).id().equals(id)) {
        return i;
      }
    }
    throw new IllegalArgumentException("The diary has no clinician (" + id + ").");
  }

  public int chair(String id) {
    for (int i = 0; i < diary.chairs().size(); i++) {
      if (diary.chairs().get(i).id().equals(id)) {
        return i;
      }
    }
    throw new IllegalArgumentException("The diary has no chair (" + id + ").");
  }

  /** Where a booking stands. */
  public Slot slot(Booking booking) {
    int start = time.minute(booking.start());
    return new Slot(
        start,
        clinician(booking.clinician()),
        chair(booking.chair()),
        booking.injectors().stream()
            .map(
                call ->
                    new Slot.Call(
                        clinician(call.clinician()), start + call.from(), start + call.to()))
            .toList());
  }

  /** Those of a slot who come only to inject, as bookings have them. */
  public List<InjectorCall> calls(Slot slot) {
    return slot.calls().stream()
        .map(
            call ->
                new InjectorCall(
                    diary.clinicians().get(call.clinician()).id(),
                    call.from() - slot.start(),
                    call.to() - slot.start()))
        .toList();
  }

  /**
   * How many of each counted set a list of names uses.
   *
   * @param names of sets, twice for two
   */
  public SetCounts uses(List<String> names) {
    return SetCounts.of(diary.stock().sets(), names);
  }

  /** Busy times that use sets. */
  public List<BusyTime> busyWithSets() {
    return diary.busy().stream().filter(busy -> !busy.sets().isEmpty()).toList();
  }
}

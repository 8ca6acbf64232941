package quadrille.diary.book;

import java.util.List;

/** What became of a booking. */
public enum BookingStatus {
  /** Kept free, not yet promised: may be moved. */
  HELD("held"),
  /** Promised to the patient: moves only if it must. */
  PROMISED("promised"),
  /** Has taken place. */
  DONE("done"),
  /** Called off; its time is free. */
  CANCELLED("cancelled"),
  /** The patient did not come; its time is free. */
  MISSED("missed");

  /** All, in the order in which faults list them. */
  public static final List<BookingStatus> ALL = List.of(values());

  private final String word;

  BookingStatus(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }

  /** Whether clinician, chair and sets are taken. */
  public boolean takesTime() {
    return this == HELD || this == PROMISED || this == DONE;
  }
}

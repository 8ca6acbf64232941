package quadrille.diary.book;

import java.util.List;

/** What was done to a diary. */
public enum Deed {
  /** Visits of courses were booked from an offer. */
  BOOK("book"),
  /** New times were found after changes. */
  REBOOK("rebook"),
  /** A visit was called off, or the patient did not come. */
  CALL_OFF("call-off"),
  /** A course was ended. */
  END("end"),
  /** A visit was moved by hand. */
  MOVE("move"),
  /** A visit is held, not promised. */
  HOLD("hold"),
  /** A visit that was held is promised. */
  PROMISE("promise"),
  /** A visit took place. */
  DONE("done"),
  /** A hold ran out. */
  EXPIRE("expire"),
  /** A change was taken back. */
  UNDO("undo"),
  /** A patient was taken out; the journal does not say whom. */
  FORGET("forget");

  /** All, in the order in which faults list them. */
  public static final List<Deed> ALL = List.of(values());

  private final String word;

  Deed(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }

  /** Whether it can be taken back: the time runs one way, and what is forgotten is not known. */
  public boolean undoable() {
    return this != EXPIRE && this != UNDO && this != FORGET;
  }
}

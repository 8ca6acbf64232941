package quadrille.diary.book;

import java.util.List;

/** Why something was changed in a diary, for the journal and for other programs. May grow. */
public enum Why {
  /** The patient asked for it. */
  PATIENT_ASKED("patient-asked"),
  /** The patient is ill. */
  PATIENT_ILL("patient-ill"),
  /** The patient did not come. */
  PATIENT_MISSED("patient-missed"),
  /** A medical reason: a question before the visit was answered so that it must wait. */
  MEDICAL("medical"),
  /** The clinician is away. */
  CLINICIAN_AWAY("clinician-away"),
  /** The practice is closed. */
  PRACTICE_CLOSED("practice-closed"),
  /** Something that the visit needs does not work, or is not there. */
  EQUIPMENT("equipment"),
  /** The plan is another one now. */
  PLAN_CHANGED("plan-changed"),
  /** It makes room for another course. */
  MAKES_ROOM("makes-room"),
  /** It follows another visit of its course. */
  FOLLOWS_ITS_COURSE("follows-its-course"),
  /** The visit before it is not booked. */
  NOTHING_BEFORE("nothing-before"),
  /** Its hold has run out. */
  HOLD_OVER("hold-over"),
  /** Somebody made a mistake. */
  MISTAKE("mistake"),
  /** Something else, which the note tells. */
  OTHER("other");

  /** All, in the order in which faults list them. */
  public static final List<Why> ALL = List.of(values());

  /** Those that a person gives; the others are the program's own. */
  public static final List<Why> SAID =
      List.of(
          PATIENT_ASKED,
          PATIENT_ILL,
          PATIENT_MISSED,
          MEDICAL,
          CLINICIAN_AWAY,
          PRACTICE_CLOSED,
          EQUIPMENT,
          PLAN_CHANGED,
          MISTAKE,
          OTHER);

  private final String word;

  Why(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}

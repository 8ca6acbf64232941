package quadrille.plan.course;

/**
 * What no course may break, as the search holds it. The audit has rules of its own.
 *
 * <p>In the order in which broken rules are listed. The rule book's constraints carry these names.
 */
public enum HardRule {
  /** All work of a visit that needs an injection lies on one side of the mouth. */
  ONE_NUMB_SIDE(1),
  /** The side that the patient has been told. */
  PROMISED_SIDE(1),
  /** Never a right and a left inferior alveolar block in one visit. */
  NO_DOUBLE_BLOCK(2),
  /** The maximum doses and the cap of epinephrine, visit by visit. */
  DOSE(3),
  /** The same over the day, where all visits are on one day. */
  DOSE_OF_THE_DAY(3),
  /** The length that a visit was booked for. */
  BOOKED_LENGTH(4),
  /** The practice's longest visit and the patient's. */
  LENGTH(4),
  /** The gross pass of the whole mouth before any fine pass, where that is asked for. */
  WHOLE_MOUTH_GROSS_FIRST(5),
  /** In an area gross before fine before finishing, visit after visit. */
  ORDER_OF_PASSES(5),
  /** The same within a visit. */
  ORDER_OF_PASSES_IN_A_VISIT(5),
  /** The steps of one pass of one area in one visit. */
  TOGETHER(6),
  /** An implant meets only the sleeved insert at low power. */
  IMPLANTS(7),
  /** Numbness before a step that needs it, and until its end. */
  NUMBNESS_LASTS(8),
  /** No more inserts in a visit than its kit holds. */
  KITS(9),
  /** Sterile sets for the visits of one day. */
  STERILE_SETS_OF_THE_DAY(9),
  /** Nothing that needs an injection which no allowed agent can give. */
  ALERTS(10),
  /** Numb first, and few teeth before the first look at the bleeding, where that is asked for. */
  OPENING(10),
  /** The quadrant of the chief complaint in the first visit. */
  START_WITH_THE_COMPLAINT(10),
  /** All passes of an area in one visit, or within the days that the practice sets. */
  BEGUN_IS_FINISHED(11),
  /** What is wished and must be kept. */
  WISHED(0),
  /** As many visits as asked for, none of them empty. */
  NO_EMPTY_VISIT(0);

  private final int number;

  HardRule(int number) {
    this.number = number;
  }

  /**
   * Its number among the hard rules H1 to H11, by which the audit knows it; 0 where it has none.
   */
  public int number() {
    return number;
  }

  /** Whether it is about how long a visit may be booked. */
  public boolean aboutLength() {
    return number == LENGTH.number;
  }

  /** Whether another agent may be what helps: a rule about doses, lasting or alerts. */
  public boolean hangsOnTheAgent() {
    return number == DOSE.number || number == NUMBNESS_LASTS.number || number == ALERTS.number;
  }
}

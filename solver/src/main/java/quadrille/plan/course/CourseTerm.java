package quadrille.plan.course;

/** What a course costs, each in seconds of chair time, in the order of the rule book. */
public enum CourseTerm {
  /** Set-up, injections, waiting, work, changes, close. */
  CHAIR_TIME("chair time"),
  /** The longest visit above the mean. */
  BALANCE("balance"),
  /** A quadrant's fine pass spread over visits. */
  SPLIT_QUADRANT("split quadrant"),
  /** Each visit that an area's fine pass waits, by the area's burden. */
  WORST_AREAS_LATE("worst areas late"),
  /**
   * Each injection, each block where an alert prices it above an infiltration, and each agent that
   * a lower block prices.
   */
  INJECTIONS("injections"),
  /** Each cartridge opened. */
  CARTRIDGES("cartridges"),
  /** Each injection that may fail and for whose repeat the visit's own doses leave no room. */
  NO_ROOM_TO_REPEAT("no room to repeat"),
  /** Each return, within a visit, to a quadrant that was left. */
  RETURNS("returns to a quadrant"),
  /** Each visit that begins elsewhere than in its worst area, by the area's burden. */
  WORST_FIRST("worst area first"),
  /** Each visit after which an area is left begun and not finished, for each such area. */
  LEFT_OPEN("areas left open"),
  /** Each deep block given before the look at the bleeding, where an alert prices it. */
  BLOCKS_BEFORE_LOOK("blocks before the look"),
  /** Each time that injections part two steps of one pass of an area. */
  NEEDLES_WITHIN_AREA("needles within an area"),
  /** Each visit, where an alert prices it. */
  VISITS("visits"),
  /** Each wish that is not kept, of those that need not be. */
  WISHES("wishes");

  private final String key;

  CourseTerm(String key) {
    this.key = key;
  }

  /** As written in a plan file. */
  public String key() {
    return key;
  }
}

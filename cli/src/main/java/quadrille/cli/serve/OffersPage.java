package quadrille.cli.serve;

import java.util.List;

/**
 * Times for a course, to be read out, and to be taken.
 *
 * @param caseName whose
 * @param course what forms call it
 * @param wishes what is asked for
 * @param clinicians whom the patient may like better
 * @param faults why something was not done; empty where nothing was asked
 * @param minds what is to be known first: bookings that are called off with it, notes
 * @param offers empty where there is none
 * @param none why there is none, lines; empty where there are offers
 * @param helps single changes that would help
 * @param code tells these offers from any others
 * @param holdDay until when what is taken is held, as typed
 * @param holdTime of that day
 */
public record OffersPage(
    boolean demo,
    String caseName,
    String course,
    Wishes wishes,
    List<DiaryRoomPage.Choice> clinicians,
    List<String> faults,
    List<String> minds,
    List<Offer> offers,
    List<String> none,
    List<String> helps,
    String code,
    List<String> people,
    String by,
    String holdDay,
    String holdTime) {

  /**
   * What is asked for, as browsers write it.
   *
   * @param from first day
   * @param until last day
   * @param clinician id of whom the patient would rather see; empty for anybody
   * @param days on which the patient can come; none for all
   * @param earliest time of day at which the patient can come
   * @param latest time of day by which a visit is over
   * @param longerGaps days by which a clinician lets gaps be longer than the plan's longest
   * @param allowedBy which clinician
   */
  public record Wishes(
      String from,
      String until,
      String clinician,
      List<Weekday> days,
      String earliest,
      String latest,
      String longerGaps,
      String allowedBy) {}

  /** A day of the week. */
  public record Weekday(String value, String words, boolean chosen) {}

  /**
   * A way to book all that is open.
   *
   * @param title what speaks for it
   * @param visits a line each
   * @param after when the mouth is charted again
   */
  public record Offer(int number, String title, List<String> visits, String after) {}
}

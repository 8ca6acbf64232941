package quadrille.treatment.record;

/**
 * An earlier record was wrong. Both stay in the log; from here on the later one counts.
 *
 * @param entry number of the entry that is corrected: a visit-done, or a correction of one
 * @param instead the whole record as it should have been, of the same visit
 * @param why a sentence; may be empty
 */
public record Corrected(int entry, VisitDone instead, String why) implements Event {
  @Override
  public String word() {
    return "corrected";
  }
}

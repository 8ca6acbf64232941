package quadrille.diary.desk;

import java.util.List;

/** What {@link BookingDesk#take} answers. */
public sealed interface BookingTaken {

  /** The diary has been replaced. */
  record Done() implements BookingTaken {}

  /**
   * The diary is not the one any more that the offers were made from; nothing was written.
   *
   * @param differences at least one
   * @param again what the same order is answered now
   */
  record Changed(List<DiaryDifference> differences, BookingAnswer again) implements BookingTaken {
    public Changed {
      differences = List.copyOf(differences);
    }
  }
}

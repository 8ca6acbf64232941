package quadrille.cli;

import picocli.CommandLine.Parameters;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** A change by hand to one booking. */
abstract class BookingVerbCommand extends VerbCommand {

  @Parameters(
      index = "1",
      paramLabel = "BOOKING",
      description = "The visit's booking, such as K-1042/2.")
  private String booking = "";

  BookingVerbCommand(Streams streams) {
    super(streams);
  }

  /**
   * What is to be changed.
   *
   * @param booking its id, as it was typed
   */
  abstract DeskChange change(Diary diary, String booking) throws StopException;

  @Override
  final DeskChange change(Diary diary) throws StopException {
    return change(diary, booking);
  }
}

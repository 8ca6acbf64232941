package quadrille.cli;

import picocli.CommandLine.Command;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** {@code quadrille promise}. */
@Command(
    name = "promise",
    customSynopsis = "quadrille promise DIARY BOOKING",
    description = {"Promise a visit that is held: from now on it moves only if it must."})
final class PromiseCommand extends BookingVerbCommand {

  PromiseCommand(Streams streams) {
    super(streams);
  }

  @Override
  DeskChange change(Diary diary, String booking) {
    return new DeskChange.Promise(booking);
  }
}

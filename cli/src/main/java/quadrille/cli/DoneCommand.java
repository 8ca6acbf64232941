package quadrille.cli;

import picocli.CommandLine.Command;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** {@code quadrille done}. */
@Command(
    name = "done",
    customSynopsis = "quadrille done DIARY BOOKING",
    description = {"Say that a visit took place."})
final class DoneCommand extends BookingVerbCommand {

  DoneCommand(Streams streams) {
    super(streams);
  }

  @Override
  DeskChange change(Diary diary, String booking) {
    return new DeskChange.Done(booking);
  }
}

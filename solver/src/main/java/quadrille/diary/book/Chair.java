package quadrille.diary.book;

import java.util.List;

/**
 * A treatment chair.
 *
 * @param id short, for commands and files
 * @param name as the practice calls it
 * @param off when it is out of use
 */
public record Chair(String id, String name, List<TimeOff> off) {

  public Chair {
    off = List.copyOf(off);
  }
}

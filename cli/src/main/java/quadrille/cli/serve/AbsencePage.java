package quadrille.cli.serve;

import java.util.List;

/**
 * What moves when somebody is away or the practice is closed, before it is done.
 *
 * @param who id of the clinician; empty for the whole practice
 * @param title such as Hanna Example is away 2 Mar to 4 Mar
 * @param faults why something was not done; empty where nothing was asked
 * @param moves what moves, and why; lines
 * @param lost what finds no other place, and is called off; lines
 * @param broken what is not finished in time; lines
 * @param code tells this from any other; empty where nothing can be done
 */
public record AbsencePage(
    boolean demo,
    String who,
    String first,
    String last,
    String title,
    List<String> faults,
    List<String> moves,
    List<String> lost,
    List<String> broken,
    String code,
    List<String> people,
    String by,
    String note) {}

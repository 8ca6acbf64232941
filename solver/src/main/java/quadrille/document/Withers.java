package quadrille.document;

import io.soabase.recordbuilder.core.RecordBuilder;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import javax.lang.model.element.Modifier;

/**
 * Gives a record one method {@code withX} for each component {@code x}, which answers the same
 * record with another {@code x}. They are generated at compile time: a record {@code R} so marked
 * says {@code implements RBuilder.With}. Null is let through to the record's constructor, since
 * what is generated says nothing of null.
 */
@RecordBuilder.Template(
    options =
        @RecordBuilder.Options(
            addFunctionalMethodsToWith = false,
            addStaticBuilder = false,
            builderClassModifiers = Modifier.FINAL))
@Retention(RetentionPolicy.SOURCE)
public @interface Withers {}

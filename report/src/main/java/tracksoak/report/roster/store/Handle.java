package tracksoak.report.roster.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Statements on one connection, value by value. One thread. Every method throws {@link Failed} for what the database refuses. */
final class Handle {

    private final Connection connection;

    /** What the database said; {@link StoreProblems} looks at the cause. */
    static final class Failed extends RuntimeException {
        private static final long serialVersionUID = 1;

        Failed(SQLException cause) {
            super(cause.getMessage(), cause);
        }
    }

    /** Makes something of the row a result stands at. */
    interface Mapper<T> {
        T of(ResultSet row) throws SQLException;
    }

    Handle(Connection connection) {
        this.connection = connection;
    }

    /** A statement with what its question marks stand for, in their order. */
    Statement sql(String sql, @Nullable Object... values) {
        return new Statement(sql, values);
    }

    /** A statement of which the one question mark in brackets stands for all of these; at least one, and few enough for one statement. */
    Statement sql(String sql, List<String> values) {
        String marks = String.join(", ", Collections.nCopies(values.size(), "?"));
        return sql(sql.replace("(?)", "(" + marks + ")"), values.toArray());
    }

    void execute(String sql) {
        sql(sql).execute();
    }

    boolean hasTable(String name) {
        try (ResultSet tables = connection.getMetaData().getTables(null, null, name, null)) {
            return tables.next();
        } catch (SQLException e) {
            throw new Failed(e);
        }
    }

    void rollback() {
        try {
            connection.rollback();
        } catch (SQLException e) {
            throw new Failed(e);
        }
    }

    /** One statement. */
    final class Statement {
        private final String sql;
        private final @Nullable Object[] values;

        private Statement(String sql, @Nullable Object... values) {
            this.sql = sql;
            this.values = values;
        }

        /** Rows changed. */
        int execute() {
            try (PreparedStatement statement = prepared()) {
                return statement.executeUpdate();
            } catch (SQLException e) {
                throw new Failed(e);
            }
        }

        <T> List<T> list(Mapper<T> mapper) {
            List<T> found = new ArrayList<>();
            try (PreparedStatement statement = prepared();
                    ResultSet rows = statement.executeQuery()) {
                while (rows.next()) {
                    found.add(mapper.of(rows));
                }
            } catch (SQLException e) {
                throw new Failed(e);
            }
            return found;
        }

        /** The first row, if there is one. */
        <T> Optional<T> first(Mapper<T> mapper) {
            return list(mapper).stream().findFirst();
        }

        List<String> texts() {
            return list(row -> row.getString(1));
        }

        /** The number that the only row holds. */
        long number() {
            return first(row -> row.getLong(1)).orElseThrow();
        }

        private PreparedStatement prepared() throws SQLException {
            PreparedStatement statement = connection.prepareStatement(sql);
            try {
                for (int i = 0; i < values.length; i++) {
                    statement.setObject(i + 1, values[i]);
                }
                return statement;
            } catch (SQLException e) {
                statement.close();
                throw e;
            }
        }
    }
}

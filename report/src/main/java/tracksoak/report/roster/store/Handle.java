package tracksoak.report.roster.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
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

    Statement sql(String sql) {
        return new Statement(sql);
    }

    /** A statement of which the one question mark in brackets stands for all of these; at least one, and few enough for one statement. */
    Statement sql(String sql, List<String> values) {
        String marks = String.join(", ", Collections.nCopies(values.size(), "?"));
        Statement statement = sql(sql.replace("(?)", "(" + marks + ")"));
        for (int i = 0; i < values.size(); i++) {
            statement.bind(i, values.get(i));
        }
        return statement;
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

    /** One statement with what its question marks stand for, counted from 0. */
    final class Statement {
        private final String sql;
        private final Map<Integer, @Nullable Object> values = new TreeMap<>();

        private Statement(String sql) {
            this.sql = sql;
        }

        Statement bind(int place, @Nullable Object value) {
            values.put(place, value);
            return this;
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
                for (Map.Entry<Integer, @Nullable Object> value : values.entrySet()) {
                    statement.setObject(value.getKey() + 1, value.getValue());
                }
                return statement;
            } catch (SQLException e) {
                statement.close();
                throw e;
            }
        }
    }
}

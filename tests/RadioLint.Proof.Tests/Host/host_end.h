/* What the tests call, once the headers are there. */
void proof_start(void (*select)(void), void (*release)(void), uint8_t (*exchange)(uint8_t), void (*ce)(uint8_t), void (*wait)(uint16_t), int bytes);
int proof_run(int call, int table, int at, int value);
int proof_read_at(int table, int at);

void proof_start(void (*select)(void), void (*release)(void), uint8_t (*exchange)(uint8_t), void (*ce)(uint8_t), void (*wait)(uint16_t), int bytes)
{
    on_select = select;
    on_release = release;
    on_exchange = exchange;
    on_ce = ce;
    on_wait = wait;
    most = bytes;
}

/* What the function returns, or -1 when it does not end. */
int proof_run(int call, int table, int at, int value)
{
    left = most;
    changed = (table < 0) ? NULL : &tables[table];
    changed_at = at;
    changed_to = (uint8_t)value;
    return (setjmp(end) == 0) ? calls[call]() : -1;
}

/* A byte of a table, or -1 behind its end. */
int proof_read_at(int table, int at)
{
    return ((unsigned)at < tables[table].size) ? tables[table].bytes[at] : -1;
}

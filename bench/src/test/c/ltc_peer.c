// Timecode by libltc, so that ours is held against a coder and a decoder of other people.
//
// ltc_peer decode RATE FILE            32-bit float samples in; a line a frame out: code, user bits, first and last sample
// ltc_peer encode RATE FPS COUNT FILE  COUNT frames from 01:02:03:04 on as unsigned bytes; user bits are the frame's number, twice
#include <ltc.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int decode(double rate, FILE *in) {
    LTCDecoder *decoder = ltc_decoder_create((int)(rate / 25), 64);
    float samples[1024];
    ltc_off_t at = 0;
    size_t read;
    while ((read = fread(samples, sizeof *samples, 1024, in)) > 0) {
        ltc_decoder_write_float(decoder, samples, read, at);
        at += (ltc_off_t)read;
        LTCFrameExt frame;
        while (ltc_decoder_read(decoder, &frame)) {
            SMPTETimecode time;
            ltc_frame_to_time(&time, &frame.ltc, 0);
            unsigned long user = (unsigned long)frame.ltc.user1 | (unsigned long)frame.ltc.user2 << 4
                | (unsigned long)frame.ltc.user3 << 8 | (unsigned long)frame.ltc.user4 << 12
                | (unsigned long)frame.ltc.user5 << 16 | (unsigned long)frame.ltc.user6 << 20
                | (unsigned long)frame.ltc.user7 << 24 | (unsigned long)frame.ltc.user8 << 28;
            printf("%02d:%02d:%02d:%02d %08lx %lld %lld\n", time.hours, time.mins, time.secs, time.frame, user,
                frame.off_start, frame.off_end);
        }
    }
    ltc_decoder_free(decoder);
    return 0;
}

static int encode(double rate, double fps, long count, FILE *out) {
    enum LTC_TV_STANDARD standard = fps == 25 ? LTC_TV_625_50 : fps == 24 ? LTC_TV_FILM_24 : LTC_TV_525_60;
    LTCEncoder *encoder = ltc_encoder_create(rate, fps, standard, 0);
    SMPTETimecode start = {.hours = 1, .mins = 2, .secs = 3, .frame = 4};
    ltc_encoder_set_timecode(encoder, &start);
    for (long i = 0; i < count; i++) {
        // libltc does not count them in for the polarity bit: twice the same changes nothing there
        ltc_encoder_set_user_bits(encoder, (unsigned long)(i | i << 16));
        ltc_encoder_encode_frame(encoder);
        ltcsnd_sample_t *samples;
        int length = ltc_encoder_get_bufferptr(encoder, &samples, 1);
        fwrite(samples, 1, (size_t)length, out);
        ltc_encoder_inc_timecode(encoder);
    }
    ltc_encoder_free(encoder);
    return 0;
}

int main(int argc, char **argv) {
    if (argc == 4 && strcmp(argv[1], "decode") == 0) {
        FILE *in = fopen(argv[3], "rb");
        return in ? decode(atof(argv[2]), in) : 1;
    }
    if (argc == 6 && strcmp(argv[1], "encode") == 0) {
        FILE *out = fopen(argv[5], "wb");
        return out && encode(atof(argv[2]), atof(argv[3]), atol(argv[4]), out) == 0 && fclose(out) == 0 ? 0 : 1;
    }
    return 2;
}

"""Which phone is said in which frame of a recording.

Debian's decoder is given a grammar that can only say the reference, and tells
which pronunciation was used and where pauses are; Debian's trainer then lays
the phones over the frames. Both use the general model as it is shipped.
"""
import os
import shutil
import struct
import subprocess
from concurrent.futures import ThreadPoolExecutor

import numpy as np

import spoken

TRAINER = os.environ.get('SPHINXTRAIN', '/usr/lib/sphinxtrain')
FEATURES = ['-lowerf', '130', '-upperf', '6800', '-nfilt', '25', '-transform', 'dct',
            '-lifter', '22', '-remove_noise', 'no', '-remove_silence', 'no']
# What the decoder is told, here and in the program.
DECODER = ['-lw', '3', '-wip', '1e-3', '-wbeam', '1e-40',
           '-remove_silence', 'no', '-remove_noise', 'no']
WIDE = ['-lw', '3', '-wip', '1e-3', '-beam', '1e-120', '-pbeam', '1e-120', '-wbeam', '1e-100']
FILLERS = '<s> SIL\n</s> SIL\n<sil> SIL\n[NOISE] +NSN+\n[SPEECH] +SPN+\n'
SENDUMP_STEP = 1.0001 ** 1024      # one step of the 8-bit weights of a sendump


def run(command, log=None):
    done = subprocess.run(command, capture_output=True, text=True, errors='replace')
    if log:
        with open(log, 'w') as f:
            f.write(done.stdout + done.stderr)
    if done.returncode:
        raise RuntimeError(f'{command[0]} failed:\n{done.stderr[-1500:]}')


def halves(recordings, job):
    """Do a job on both halves of a list, two processes at a time."""
    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(job, (0, 1), (recordings[0::2], recordings[1::2])))


def keys_to(path, recordings):
    with open(path, 'w') as f:
        f.writelines(rec.key + '\n' for rec in recordings)
    return path


def cepstra(recordings, sounds, folder):
    """Write KEY.mfc for every KEY.wav, by the decoder's own front end."""
    os.makedirs(folder, exist_ok=True)
    halves(recordings, lambda k, part: run(
        ['sphinx_fe', '-c', keys_to(f'{folder}/{k}.ctl', part), '-di', sounds,
         '-do', folder, '-ei', 'wav', '-eo', 'mfc', '-mswav', 'yes',
         '-samprate', '16000', *FEATURES]))


def read_cepstra(path):
    data = open(path, 'rb').read()
    return np.frombuffer(data[4:], '<f4').reshape(-1, 13)


def unpack_model(folder):
    """The general model with phone table and weights as the trainer reads them."""
    os.makedirs(folder, exist_ok=True)
    source = f'{spoken.SHIPPED}/en-us'
    for name in 'means', 'variances', 'transition_matrices':
        shutil.copy(f'{source}/{name}', folder)
    run(['pocketsphinx_mdef_convert', '-text', f'{source}/mdef', f'{folder}/mdef'])
    senones = int(open(f'{folder}/mdef').read(400).split(' n_tied_state')[0].split()[-1])
    data = open(f'{source}/sendump', 'rb').read()[-senones * 3 * 128:]
    steps = np.frombuffer(data, np.uint8).reshape(3, 128, senones).astype(float)
    weights = (SENDUMP_STEP ** -steps).transpose(2, 0, 1)
    weights /= weights.sum(2, keepdims=True)
    with open(f'{folder}/mixture_weights', 'wb') as f:
        f.write(b's3\nversion 1.0\nendhdr\n' + struct.pack('<I', 0x11223344))
        f.write(struct.pack('<4i', senones, 3, 128, weights.size))
        f.write(weights.astype('<f4').tobytes())


def words_said(recordings, features, work):
    """key -> words with the number of the pronunciation, pauses as <sil>."""
    for rec in recordings:
        words = rec.words.split()
        with open(f'{work}/{rec.key}.fsg', 'w') as f:
            f.write(f'FSG_BEGIN ref\nNUM_STATES {len(words) + 1}\nSTART_STATE 0\n'
                    f'FINAL_STATE {len(words)}\n')
            f.writelines(f'TRANSITION {i} {i + 1} 1.0 {w}\n' for i, w in enumerate(words))
            f.write('FSG_END\n')

    def job(k, part):
        control, answer = keys_to(f'{work}/{k}.ctl', part), f'{work}/{k}.seg'
        run(['pocketsphinx_batch', '-hmm', f'{spoken.SHIPPED}/en-us',
             '-dict', f'{work}/words.dict', '-ctl', control, '-cepdir', features,
             '-cepext', '.mfc', '-fsgctl', control, '-fsgdir', work, '-fsgext', '.fsg',
             '-hypseg', answer, *WIDE], f'{work}/{k}.log')
        return open(answer).read().splitlines()
    said = {}
    for line in sum(halves(recordings, job), []):
        key, *fields = line.split()
        words = [w for w in fields[11::4] if w not in ('<s>', '</s>', '(NULL)')]
        if any(w[0] not in '<[' for w in words):
            said[key] = ' '.join(words).removeprefix('<sil> ').removesuffix(' <sil>')
    return said


def lay_phones(recordings, said, features, model, work):
    """Let the trainer write KEY.phseg: first and last frame of each phone."""
    def job(k, part):
        out = f'{work}/counts{k}'
        os.makedirs(out, exist_ok=True)
        with open(f'{work}/{k}.lsn', 'w') as f:
            f.writelines(f'<s> {said[rec.key]} </s> ({rec.key})\n' for rec in part)
        run([f'{TRAINER}/bw', '-moddeffn', f'{model}/mdef', '-ts2cbfn', '.ptm.',
             '-feat', '1s_c_d_dd', '-svspec', '0-12/13-25/26-38', '-cmn', 'batch',
             '-agc', 'none', '-dictfn', f'{work}/words.dict',
             '-fdictfn', f'{work}/fillers', '-ctlfn', keys_to(f'{work}/{k}.ctl', part),
             '-lsnfn', f'{work}/{k}.lsn', '-accumdir', out, '-cepdir', features,
             '-cepext', 'mfc', '-meanfn', f'{model}/means',
             '-varfn', f'{model}/variances', '-mixwfn', f'{model}/mixture_weights',
             '-tmatfn', f'{model}/transition_matrices', '-topn', '8',
             '-abeam', '1e-90', '-bbeam', '1e-40', '-timing', 'no',
             '-viterbi', 'yes', '-outphsegdir', work, '-outputfullpath', 'no'],
            f'{work}/bw{k}.log')
    halves([rec for rec in recordings if rec.key in said], job)


def frame_outputs(path, said, ways, outputs):
    """The network output that is right in each frame of one recording."""
    phones = []
    for word in said.split():
        if word[0] not in '<[':
            name, _, number = word.partition('(')
            phones += ways[name][int(number.rstrip(')') or 1) - 1].split()
    labels, phones = [], iter(phones)
    for line in open(path):
        fields = line.split()
        if len(fields) < 4 or not fields[0].isdigit():
            continue
        length = int(fields[1]) - int(fields[0]) + 1
        silent = fields[3] in ('SIL', '+NSN+', '+SPN+')
        own = outputs['SIL' if silent else next(phones)]
        labels += [own[i * len(own) // length] for i in range(length)]
    if next(phones, None) is not None:
        raise ValueError(f'{path}: phones left over')
    return np.array(labels)


def align(recordings, features, work):
    """key -> right outputs by frame, of the recordings that can be aligned."""
    os.makedirs(work, exist_ok=True)
    vocabulary = {w for rec in recordings for w in rec.words.split()}
    with open(f'{work}/words.dict', 'w') as f:
        f.write(spoken.dictionary(spoken.pronunciations(vocabulary, own=False)))
    with open(f'{work}/fillers', 'w') as f:
        f.write(FILLERS)
    unpack_model(f'{work}/model')
    said = words_said(recordings, features, work)
    lay_phones(recordings, said, features, f'{work}/model', work)
    ways, outputs = spoken.pronunciations(vocabulary), spoken.outputs()
    return {key: frame_outputs(f'{work}/{key}.phseg', words, ways, outputs)
            for key, words in said.items() if os.path.exists(f'{work}/{key}.phseg')}
